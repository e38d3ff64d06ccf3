import { z } from 'zod';
import { group, key, may } from './key.js';
import { amended, count, longText, shortName, slug, text } from './measures.js';
import { calendarDay } from './calendar-day.js';
import { lesion, mark } from './lesion.js';
import { visit } from './visit.js';
import { episodeResults } from './words.js';

/** The version of the case format that this program writes, and the newest it reads; every older one is read as well. */
export const caseFormat = 1;

/** A lameness episode with an end. */
export const episode = group({
  'lame-since': calendarDay.optional(),
  'told-by': text.optional(),
  ended: calendarDay.optional(),
  result: z.enum(episodeResults).optional(),
  /** Of one sold or moved: the day the new keeper was told what is withheld, and what is still on her feet. */
  'told-in-writing': calendarDay.optional(),
  amended,
});
export type Episode = z.infer<typeof episode>;

/** The front matter of an animal's file. Keys are the file's own words, so a path in the record is a path in the file. */
export const animal = group({
  casefile: z.literal(caseFormat),
  animal: key(text, { log: 'identity' }),
  tag: may(text, { ask: 1, log: 'identity' }),
  electronic: may(text, { log: 'identity' }),
  breed: may(text, { ask: 2, log: 'identity' }),
  born: may(calendarDay, { ask: 3, log: 'identity' }),
  calvings: may(z.array(calendarDay), { ask: 4, log: 'identity' }),
  'calved-before': may(count, { log: 'identity' }),
  'dried-off': may(z.array(calendarDay), { log: 'identity' }),
  'due-to-calve': may(calendarDay, { ahead: true, log: 'identity' }),
  handling: may(longText, { ask: 5, log: 'identity' }),
  earlier: z
    .array(group({ animal: text.optional(), farm: slug.optional(), until: calendarDay.optional() }))
    .optional(),
  episodes: z.array(episode).optional(),
  lesions: key(z.record(shortName, lesion), { more: 1 }),
  marks: may(z.record(shortName, mark), { more: 2 }),
  visits: z.array(visit),
  /** Corrections of who she is; lesions, marks, episodes and visits keep their own. */
  amended,
});
/** One animal as her case file declares her, checked; absent keys are unknown. */
export type Animal = z.infer<typeof animal>;

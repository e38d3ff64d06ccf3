import { z } from 'zod';
import { amended, count, longText, shortName, slug, text } from './measures.js';
import { calendarDay } from './calendar-day.js';
import { lesion, mark } from './lesion.js';
import { visit } from './visit.js';
import { episodeResults } from './words.js';

/** The version of the case format that this program writes, and the newest it reads; every older one is read as well. */
export const caseFormat = 1;

/** A run of trouble with an end. */
export const episode = z.strictObject({
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
export const animal = z.strictObject({
  casefile: z.literal(caseFormat),
  animal: text,
  tag: text.optional(),
  electronic: text.optional(),
  breed: text.optional(),
  born: calendarDay.optional(),
  calvings: z.array(calendarDay).optional(),
  'calved-before': count.optional(),
  'dried-off': z.array(calendarDay).optional(),
  'due-to-calve': calendarDay.optional(),
  handling: longText.optional(),
  earlier: z
    .array(z.strictObject({ animal: text.optional(), farm: slug.optional(), until: calendarDay.optional() }))
    .optional(),
  episodes: z.array(episode).optional(),
  lesions: z.record(shortName, lesion),
  marks: z.record(shortName, mark).optional(),
  visits: z.array(visit),
  /** Corrections of who she is; lesions, marks, episodes and visits keep their own. */
  amended,
});
/** One animal as her case file declares her, checked; absent keys are unknown. */
export type Animal = z.infer<typeof animal>;

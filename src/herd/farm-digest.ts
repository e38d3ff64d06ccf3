import { createHash } from 'node:crypto';
import { z } from 'zod';
import { growingConditions } from '../growth/growth-line.js';
import { lessonOf, lesson } from '../growth/learning/priors-for.js';
import { scoredGap, scoredGaps } from '../growth/track-record/track-record.js';
import { animal as animalSchema } from '../record/animal.js';
import { calendarDay, type CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { isLiftingVisit } from '../record/lifting.js';
import { slug } from '../record/measures.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { followedLesions } from './lesion-rates.js';
import { recurrence, recurrenceOfLesions, returnsOfDermatitis } from './recurrence.js';
import { healingTime, healingTimeOf, seenTime, walkTimes } from './time-to-event.js';
import { workOfCase, workOfCases } from './work-per-case.js';

/** Raised whenever a digest of the same records would differ, in form or in what it says. */
export const digestVersion = 1;

const caseDigest = z.strictObject({
  slug: z.string(),
  /** Her numbers: she may have a file on another farm. */
  animal: animalSchema.pick({ animal: true, tag: true, electronic: true, earlier: true }),
  /** What her readings teach of growth; absent where they say nothing of it. */
  lesson: lesson.optional(),
  /** Her wall gaps seen healed, with the scores of the dates given. */
  gaps: z.array(scoredGap),
  /** A mark of each visit that lifted feet or scored her walk: the same in a file that only repeats this one. */
  marks: z.array(z.string()),
  healed: z.array(healingTime),
  notLame: z.array(seenTime),
  sound: z.array(seenTime),
  recurrence,
  dermatitis: recurrence,
  work: z.array(workOfCase),
});
export type CaseDigest = Readonly<z.infer<typeof caseDigest>>;

/**
 * All that one farm gives to the others, from its own records alone, as they stood at the end of a day: it is plain data,
 * the same after JSON and back.
 *
 * Checked: tests/herd/farm-digest.test.ts
 */
export const farmDigest = z.strictObject({
  version: z.literal(digestVersion),
  slug,
  /** The day up to which visits count. */
  upTo: calendarDay,
  /** In the order of their slugs. A file begun later is there, with nothing to give: she may be the cow of an older one. */
  cases: z.array(caseDigest),
});
export type FarmDigest = Readonly<z.infer<typeof farmDigest>>;

/** The digest of a farm. Each part of it is worked out when it is first read. */
export function digestOf(farm: FarmRecord, upTo: CalendarDay): FarmDigest {
  return {
    version: digestVersion,
    slug: farm.slug,
    upTo,
    cases: farm.cases
      .toSorted((a, b) => (a.slug < b.slug ? -1 : 1))
      .map((record) => caseDigestOf(farm, asOf(record, upTo), upTo)),
  };
}

function caseDigestOf(farm: FarmRecord, record: CaseRecord, upTo: CalendarDay): CaseDigest {
  const { animal } = record;
  const { tag, electronic, earlier } = animal;
  const conditions = growingConditions(farm.farm);
  const followed = once(() => followedLesions([{ ...farm, cases: [record] }], upTo));
  return whenRead({
    slug: () => record.slug,
    animal: () => ({ animal: animal.animal, ...given({ tag, electronic, earlier }) }),
    lesson: () => lessonOf(animal, conditions, upTo),
    gaps: () => scoredGaps(animal, conditions, upTo),
    marks: () => marksOf(record),
    healed: () => followed().map(healingTimeOf),
    notLame: () => walkTimes(farm, record, upTo, 'not-lame'),
    sound: () => walkTimes(farm, record, upTo, 'sound'),
    recurrence: () => recurrenceOfLesions(followed(), upTo),
    dermatitis: () => returnsOfDermatitis(followed()),
    work: () => workOfCases(animal, upTo),
  });
}

/** A record with the visits up to a day. */
function asOf(record: CaseRecord, day: CalendarDay): CaseRecord {
  const { animal } = record;
  const visits = animal.visits.filter(({ date }) => date <= day);
  return visits.length === animal.visits.length ? record : { ...record, animal: { ...animal, visits } };
}

function marksOf({ animal }: CaseRecord): string[] {
  const told = animal.visits
    .filter((visit) => isLiftingVisit(visit) || visit.gait !== undefined)
    .map(({ date, by, gait, found }) => JSON.stringify([date, by, gait, found]));
  // 72 bits: of the few visits of one animal no two different ones bear one mark.
  return [...new Set(told.map((one) => createHash('sha256').update(one).digest('base64').slice(0, 12)))];
}

/** An object whose parts are worked out when they are first read, once. */
export function whenRead<T extends object>(parts: { readonly [Key in keyof T]-?: () => T[Key] }): T {
  const all = Object.entries<() => unknown>(parts).map(([key, work]): [string, PropertyDescriptor] => [
    key,
    { get: once(work), enumerable: true },
  ]);
  return Object.defineProperties({} as T, Object.fromEntries(all));
}

/** Works a thing out when it is first asked for, and remembers it. */
function once<T>(work: () => T): () => T {
  let done: { readonly value: T } | undefined;
  return () => (done ??= { value: work() }).value;
}

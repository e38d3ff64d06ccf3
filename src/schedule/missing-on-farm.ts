import type { CalendarDay } from '../record/calendar-day.js';
import type { RecordPath } from '../problem/problem.js';
import type { FarmRecord } from '../record/practice.js';
import { antimicrobialBaths, usesOf, writtenPeriod } from './withheld.js';
import { given } from '../record/given.js';
import type { CaseStanding } from '../healing/standing.js';
import type { Animal } from '../record/animal.js';
import type { Farm } from '../record/farm.js';
import type { Visit } from '../record/visit.js';
import type { IntervalsInForce } from '../reference/intervals.js';

/** How much a missing entry costs: a date, a duty or an answer (serious); certainty (worth closing); completeness (minor). */
export type MissingGrade = 'serious' | 'worth closing' | 'minor';

export const missingIds = [
  'gap/no-length',
  'gap/top-found-not-said',
  'gap/product-without-batch',
  'gap/product-without-class',
  'gap/product-without-withdrawal',
  'gap/recheck-passed',
  'gap/block-past-its-time',
  'gap/wrap-past-its-time',
  'gap/closed-with-block-on',
  'gap/closed-with-wrap-on',
  'gap/sound-not-shown',
  'gap/no-gait-score',
  'gap/lame-without-pain-relief-word',
  'gap/photo-missing',
  'gap/no-after-trim-picture',
  'gap/farm-task-not-reported',
  'gap/vet-answer-awaited',
  'gap/missed-without-why',
  'gap/milkings-a-day-not-given',
  'gap/treated-without-product',
  'gap/medicine-without-prescriber',
  'gap/left-under-withdrawal',
  'gap/antibiotic-in-footbath',
] as const;
export type MissingId = (typeof missingIds)[number];

/** Something the record does not hold and could: listed, never fatal. */
export interface MissingEntry {
  readonly id: MissingId;
  readonly grade: MissingGrade;
  /** Where it belongs in the file; its nearest parent where the key is not written. */
  readonly path: RecordPath;
  /** What fills its words `missing.….message`; days are `CalendarDay`s, worded where they are printed. */
  readonly values: Readonly<Record<string, string | number>>;
  /** Where it can be put right: with the record in hand, at the next lift, or by asking farm or vet. */
  readonly closable: 'in-the-record' | 'next-lift' | 'by-asking';
  readonly since?: CalendarDay;
}

/** What the farm's own file lacks or says that bears on all her cases: milkings a day, an antimicrobial in the footbath. */
export function missingOnFarm({ farm, cases }: FarmRecord, today: CalendarDay): readonly MissingEntry[] {
  const uncounted = cases
    .flatMap(({ animal }) => usesOf(animal, today).map((use) => ({ ...use, animal: animal.animal })))
    .find(
      ({ use }) => writtenPeriod(use, 'milk', farm['milkings-a-day']).outcome === 'milkings-a-day-not-known',
    );
  const baths = antimicrobialBaths(farm).filter(({ from = '' }) => from <= today);
  return [
    ...(uncounted
      ? [
          {
            id: 'gap/milkings-a-day-not-given',
            grade: 'serious',
            path: ['farm'],
            values: { animal: uncounted.animal, product: uncounted.use.product, day: uncounted.date },
            closable: 'by-asking',
            since: uncounted.date,
          } as const,
        ]
      : []),
    ...baths.map(({ product, from }): MissingEntry => ({
      id: 'gap/antibiotic-in-footbath',
      grade: 'serious',
      path: ['footbath'],
      values: { product, ...(from === undefined ? {} : { from, which: 'from' }) },
      closable: 'by-asking',
      ...given({ since: from }),
    })),
  ];
}

/** What missing entries are looked for in. */
export interface MissingContext {
  readonly animal: Animal;
  readonly farm: Farm;
  readonly standing: CaseStanding;
  readonly interval: IntervalsInForce;
  /** Visits of the open episode up to the day; empty for a closed case. */
  readonly open: readonly (readonly [number, Visit])[];
  readonly today: CalendarDay;
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { RecordPath } from '../problem/problem.js';
import type { FarmRecord } from '../record/practice.js';
import { antimicrobialBaths, usesOf, writtenPeriod } from './withheld.js';
import { given } from '../record/given.js';

/** How much a missing entry costs: a date, a duty or an answer (serious); certainty (worth closing); completeness (minor). */
export type MissingGrade = 'serious' | 'worth closing' | 'minor';

/** Each kind of missing entry: how much it costs, unless said otherwise of one, and where it can be put right. */
const kinds = {
  'gap/no-length': ['worth closing', 'next-lift'],
  'gap/top-found-not-said': ['worth closing', 'in-the-record'],
  'gap/product-without-batch': ['worth closing', 'in-the-record'],
  'gap/product-without-class': ['worth closing', 'by-asking'],
  'gap/product-without-withdrawal': ['serious', 'by-asking'],
  'gap/recheck-passed': ['serious', 'next-lift'],
  'gap/block-past-its-time': ['serious', 'next-lift'],
  'gap/wrap-past-its-time': ['serious', 'by-asking'],
  'gap/closed-with-block-on': ['serious', 'by-asking'],
  'gap/closed-with-wrap-on': ['serious', 'by-asking'],
  'gap/sound-not-shown': ['serious', 'by-asking'],
  'gap/no-gait-score': ['worth closing', 'by-asking'],
  'gap/lame-without-pain-relief-word': ['worth closing', 'in-the-record'],
  'gap/photo-missing': ['worth closing', 'in-the-record'],
  'gap/no-after-trim-picture': ['minor', 'next-lift'],
  'gap/farm-task-not-reported': ['worth closing', 'by-asking'],
  'gap/vet-answer-awaited': ['worth closing', 'by-asking'],
  'gap/missed-without-why': ['minor', 'by-asking'],
  'gap/milkings-a-day-not-given': ['serious', 'by-asking'],
  'gap/treated-without-product': ['serious', 'by-asking'],
  'gap/medicine-without-prescriber': ['serious', 'by-asking'],
  'gap/left-under-withdrawal': ['serious', 'by-asking'],
  'gap/antibiotic-in-footbath': ['serious', 'by-asking'],
} as const satisfies Record<string, readonly [MissingGrade, 'in-the-record' | 'next-lift' | 'by-asking']>;
export type MissingId = keyof typeof kinds;
export const missingIds = Object.keys(kinds) as readonly MissingId[];

/** Something the record does not hold and could: listed, never fatal. */
export interface MissingEntry {
  readonly id: MissingId;
  readonly grade: MissingGrade;
  /** Where it belongs in the file; its nearest parent where the key is not written. */
  readonly path: RecordPath;
  /** What fills its words `missing.….message`; days are `CalendarDay`s, worded where they are printed. */
  readonly values: Readonly<Record<string, string | number>>;
  /** Where it can be put right: with the record in hand, at the next lift, or by asking farm or vet. */
  readonly closable: (typeof kinds)[MissingId][1];
  readonly since?: CalendarDay;
}

/** A missing entry of its kind; values that are absent leave no mark. */
export function missingEntry(
  id: MissingId,
  path: RecordPath,
  since: CalendarDay | undefined,
  values: Readonly<Record<string, string | number | undefined>>,
  grade: MissingGrade = kinds[id][0],
): MissingEntry {
  return {
    id,
    grade,
    path,
    values: given(values) as MissingEntry['values'],
    closable: kinds[id][1],
    ...given({ since }),
  };
}

/** What the farm's own file lacks or says that bears on all her cases: milkings a day, an antimicrobial in the footbath. */
export function missingOnFarm({ farm, cases }: FarmRecord, today: CalendarDay): readonly MissingEntry[] {
  const uncounted = cases
    .flatMap(({ animal }) => usesOf(animal, today).map((use) => ({ ...use, animal: animal.animal })))
    .filter(
      ({ use }) => writtenPeriod(use, 'milk', farm['milkings-a-day']).outcome === 'milkings-a-day-not-known',
    );
  const baths = antimicrobialBaths(farm).filter(({ from = '' }) => from <= today);
  return [
    ...uncounted
      .slice(0, 1)
      .map(({ animal, use: { product }, date: day }) =>
        missingEntry('gap/milkings-a-day-not-given', ['farm'], day, { animal, product, day }),
      ),
    ...baths.map(({ product, from }) => {
      const which = from === undefined ? undefined : 'from';
      return missingEntry('gap/antibiotic-in-footbath', ['footbath'], from, { product, from, which });
    }),
  ];
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { RecordPath } from '../problem/problem.js';

/** How much a gap costs: a date, a duty or an answer (serious); certainty (worth closing); completeness (minor). */
export type GapGrade = 'serious' | 'worth closing' | 'minor';

export const gapIds = [
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
export type GapId = (typeof gapIds)[number];

/** Something the record does not hold and could: listed, never fatal. */
export interface Gap {
  readonly id: GapId;
  readonly grade: GapGrade;
  /** Where it belongs in the file; its nearest parent where the key is not written. */
  readonly path: RecordPath;
  /** What fills its words `gap.….message`; days are `CalendarDay`s, worded where they are printed. */
  readonly values: Readonly<Record<string, string | number>>;
  /** Where it can be put right: with the record in hand, at the next lift, or by asking farm or vet. */
  readonly closable: 'in-the-record' | 'next-lift' | 'by-asking';
  readonly since?: CalendarDay;
}

import { growingConditions } from '../growth/growth-line.js';
import { type ReadingWorthTaking, worthMeasuring } from '../growth/worth-measuring/worth-measuring.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { given } from '../record/given.js';
import type { CaseWork } from './case-work.js';
import { nextLift } from './next-lift.js';
import { lesionsUnderNotice } from './work-out-case.js';
import { type ForecastEntry, forecastEntries } from '../growth/when-out.js';
import type { Prior } from '../growth/what-is-known.js';
import type { StandingEvidence, StandingWord } from '../healing/standing.js';
import type { FarmRecord } from '../record/practice.js';
import type { DueItem } from './due/due-item.js';
import type { Notice } from './notices/notice-rule.js';

/**
 * The one reading at her next lift that would narrow a date most.
 *
 * Valid:   undefined where her case is closed, no day for the lift is known, or no reading narrows enough
 * Checked: tests/schedule/reading-to-take.test.ts
 */
export function readingToTake(
  farm: Farm,
  work: CaseWork,
  today: CalendarDay,
): ReadingWorthTaking | undefined {
  const next = nextLift(farm, work, today);
  if (next === undefined || work.standing.closed) return undefined;
  const { 'every-weeks': weeks } = farm;
  return worthMeasuring(
    work.record.animal,
    growingConditions(farm),
    { today, prior: work.growth.prior, underNotice: lesionsUnderNotice(work.record.animal, work.notices) },
    { next, ...given({ daysToSecond: weeks && weeks * 7 }) },
  );
}

/**
 * One wall gap as `growdown forecast --json` gives it out: its forecast, its status and that of its animal.
 *
 * What is due and what is for the vet belongs to the animal: all of it is repeated on each of her entries, so that
 * one entry can be read alone, and each item names the lesion it is about where it is about one. The reading worth
 * taking is only on the entry of the gap whose date it narrows. Numbers are not rounded; words are by code.
 */
export interface CaseEntry extends ForecastEntry {
  /** What was held of her growth beforehand, and how many other cows taught it. */
  readonly prior: Prior;
  readonly standing: { readonly word: StandingWord; readonly evidence: StandingEvidence };
  readonly due: readonly DueItem[];
  readonly notices: readonly Notice[];
  readonly worthMeasuring?: ReadingWorthTaking;
}

/**
 * The entries of one animal, sorted by lesion: one for each wall gap that has a reading.
 *
 * Checked: tests/schedule/case-entries.test.ts
 */
export function caseEntries(
  { slug: farm, farm: record }: FarmRecord,
  work: CaseWork,
  today: CalendarDay,
): CaseEntry[] {
  const { slug, animal } = work.record;
  const worth = readingToTake(record, work, today);
  const next = nextLift(record, work, today);
  return forecastEntries({ farm, slug, animal, nextLift: next }, work.growth).flatMap((entry) => {
    const stands = work.standing.lesions.find(({ lesion }) => lesion === entry.lesion);
    if (stands === undefined) return [];
    return {
      ...entry,
      prior: work.growth.prior,
      standing: { word: stands.standing, evidence: stands.evidence },
      due: work.due,
      notices: work.notices,
      ...(worth?.lesion === entry.lesion ? { worthMeasuring: worth } : {}),
    };
  });
}

import type { CalendarDay } from '../../record/calendar-day.js';
import type { Practice } from '../../record/practice.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import { growingConditions } from '../growing-conditions.js';
import { type ScoredGap, scoredGaps } from './scored-gaps.js';

/** How good the forecasts of some healed gaps have been. */
export interface Score {
  /** Healed gaps of which at least one forecast was scored. */
  readonly lesions: number;
  readonly forecasts: number;
  /** Too few to say much; the book says so. */
  readonly tooFew: boolean;
  /** Share inside the 80 % range, 0 to 1: averaged for each gap, then over gaps. Absent without any. */
  readonly inRange?: number;
  /** Days the best day was off, averaged alike; and the middle one of the gaps' own averages. */
  readonly errorDays?: number;
  readonly middleErrorDays?: number;
}

/** How good we were. */
export interface TrackRecord {
  readonly all: Score;
  /** Of those, the gaps whose clock started anew. */
  readonly restarted: Score;
  /** Readings after which no date was given, and readings taken with the expected one in view: not scored. */
  readonly withoutForecast: number;
  readonly leftOut: number;
  readonly gaps: readonly (ScoredGap & { readonly farm: string; readonly slug: string })[];
}

/**
 * How good the forecasts have been, for every wall gap seen healed on any farm.
 *
 * Each gap counts once, however often it was measured.
 *
 * Valid:   forecasts from published numbers and the cow's own readings alone, as known on each day
 * Source:  shared/growth.json `trackRecord`, `forecast`
 * Checked: tests/hand-worked/track-record.test.ts, tests/growth/track-record.test.ts
 * @example trackRecord(practice, '2026-11-25').all.inRange
 */
export function trackRecord(practice: Pick<Practice, 'farms'>, today: CalendarDay): TrackRecord {
  const gaps = practice.farms.flatMap(({ slug: farm, farm: record, cases }) => {
    const conditions = growingConditions(record);
    return cases.flatMap(({ slug, animal }) =>
      scoredGaps(animal, conditions, today).map((gap) => ({ farm, slug, ...gap })),
    );
  });
  return {
    all: score(gaps),
    restarted: score(gaps.filter(({ restarted }) => restarted)),
    withoutForecast: sum(gaps.map(({ withoutForecast }) => withoutForecast)),
    leftOut: sum(gaps.map(({ leftOut }) => leftOut)),
    gaps,
  };
}

function score(gaps: readonly ScoredGap[]): Score {
  const scored = gaps.filter(({ scores }) => scores.length > 0);
  const errors = scored.map(({ scores }) => mean(scores.map(({ errorDays }) => errorDays)));
  const counts = {
    lesions: scored.length,
    forecasts: sum(scored.map(({ scores }) => scores.length)),
    tooFew: scored.length < growthNumbers.trackRecord.few.value,
  };
  if (scored.length === 0) return counts;
  return {
    ...counts,
    inRange: mean(scored.map(({ scores }) => mean(scores.map(({ inRange }) => inRange)))),
    errorDays: mean(errors),
    middleErrorDays: middle(errors),
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function mean(values: readonly number[]): number {
  return sum(values) / values.length;
}

function middle(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const below = sorted[Math.floor((sorted.length - 1) / 2)]!;
  const above = sorted[Math.floor(sorted.length / 2)]!;
  return (below + above) / 2;
}

import type { TrackRecord } from '../growth/track-record/track-record.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { Estimate } from '../statistics/estimate.js';
import { printedMeanShare, spreadOf, type Spread } from './printed-figure.js';

/** How good the dates of some gaps seen healed were, as far as it may be printed. */
export interface HowGood {
  /** Gaps of which at least one date was scored. */
  readonly gaps: number;
  /** Share of the dates that held the day in their range: averaged for each gap, then over gaps. */
  readonly inRange?: Estimate;
  /** Whole days the most likely day was off, of each gap on average. */
  readonly daysOff?: Spread;
}

/**
 * Source:  shared/growth.json `trackRecord`
 * Checked: tests/herd/printed-figure.test.ts, tests/words/pooled-sentences.test.ts
 * @example howGood([]) // → { gaps: 0 }
 */
export function howGood(gaps: TrackRecord['gaps']): HowGood {
  const scored = gaps.filter(({ scores }) => scores.length > 0);
  const animals = new Set(scored.map(({ farm, slug }) => `${farm}/${slug}`)).size;
  const shares = scored.map(({ scores }) => mean(scores.map((score) => score.inRange)));
  const days = scored.map(({ scores }) => Math.round(mean(scores.map((score) => score.errorDays))));
  const { few } = growthNumbers.trackRecord;
  const inRange = scored.length < few.value ? undefined : printedMeanShare(mean(shares), animals);
  const daysOff = spreadOf(days, animals);
  return { gaps: scored.length, ...(inRange ? { inRange } : {}), ...(daysOff ? { daysOff } : {}) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

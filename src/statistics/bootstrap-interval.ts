import { checkedLevel } from './checked-level.js';
import { seededRandom } from './seeded-random.js';

/** How a statistic varies when the clusters are drawn anew. */
export interface BootstrapInterval {
  readonly low: number;
  readonly high: number;
  /** How many drawn sets the interval rests on. */
  readonly draws: number;
  /** Further drawn sets for which the statistic did not exist: more than a few of them, and the interval is doubtful. */
  readonly without: number;
}

export interface BootstrapOptions {
  readonly seed: number;
  readonly level?: number;
  readonly draws?: number;
}

/**
 * A percentile interval for any statistic, by drawing whole clusters with replacement.
 *
 * A cluster is what belongs together and is not independent, such as the lesions of one animal: drawn or left out as one.
 * As many clusters are drawn as there are, and the statistic is worked out from all that came with them, as often as it
 * was drawn. The bounds are the values that leave the same share of the drawn sets outside on either side, without
 * interpolation: rank (draws + 1) × share. So an Infinity ("not reached") may stand as a bound.
 *
 * With few clusters (under ten or so) such intervals are too short; say how many there were.
 *
 * Shape:   clusters of observations, statistic of a list of observations → interval
 * Valid:   two clusters or more; at least 1 ÷ (share outside on one side) draws; 1999 by default
 * Error:   RangeError for fewer, for NaN from the statistic, or if it never exists
 * Source:  B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993); A. C. Davison and D. V. Hinkley,
 *          Bootstrap Methods and their Application (1997)
 * Checked: tests/statistics/bootstrap-interval.test.ts, against every set that can be drawn
 * @example bootstrapInterval([[5], [5, 5]], (drawn) => drawn[0], { seed: 1 }) // → { low: 5, high: 5, draws: 1999, without: 0 }
 */
export function bootstrapInterval<T>(
  clusters: readonly (readonly T[])[],
  statistic: (observations: readonly T[]) => number | undefined,
  { seed, level = 0.95, draws = 1999 }: BootstrapOptions,
): BootstrapInterval {
  if (clusters.length < 2) throw new RangeError(`${clusters.length} clusters: expected at least two`);
  const outside = (1 - checkedLevel(level)) / 2;
  if (!Number.isInteger(draws) || (draws + 1) * outside < 1 - 1e-9) {
    throw new RangeError(`${draws} draws: too few for a level of ${level}`);
  }
  const random = seededRandom(seed);
  const values: number[] = [];
  for (let draw = 0; draw < draws; draw++) {
    const value = statistic(clusters.flatMap(() => clusters[random.below(clusters.length)]!));
    if (Number.isNaN(value)) throw new RangeError('the statistic gave NaN: expected a number or undefined');
    if (value !== undefined) values.push(value);
  }
  if (values.length === 0) throw new RangeError('the statistic did not exist for any drawn set');
  values.sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  const rank = Math.max(1, Math.floor((values.length + 1) * outside + 1e-9));
  return {
    low: values[rank - 1]!,
    high: values[values.length - rank]!,
    draws: values.length,
    without: draws - values.length,
  };
}

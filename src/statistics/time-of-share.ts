import { type Interval, interval } from './interval.js';
import type { MassIn } from './interval-censored-survival.js';

/**
 * The box in which a given share of the events has come: after its start fewer had, by its end at least so many.
 *
 * With 0.5 this is the median, with all that is known of it: "half had closed between day 28 and day 42". A box that
 * ends at Infinity says that the share was not seen reached.
 *
 * Valid:   a share above 0, up to 1
 * Error:   RangeError for another share; sums are compared to within 1e-9
 * Checked: tests/statistics/survival-at.test.ts
 * @example timeOfShare([{ after: 3, by: 5, mass: 0.5 }, { after: 6, by: 8, mass: 0.5 }], 0.5) // → { after: 3, by: 5 }
 */
export function timeOfShare(support: readonly MassIn[], share: number): Interval {
  if (!(share > 0 && share <= 1)) throw new RangeError(`a share of ${share}: expected above 0, up to 1`);
  let come = 0;
  for (const { after, by, mass } of support) {
    come += mass;
    if (come >= share - 1e-9) return interval(after, by);
  }
  throw new RangeError('the masses do not sum to 1');
}

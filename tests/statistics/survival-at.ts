import type { Bounds } from '../../src/statistics/estimate.js';
import type { MassIn } from '../../src/statistics/npmle-masses.js';

/**
 * The share for whom the event is still to come after time t: two bounds, equal wherever the curve is known.
 *
 * The endpoint rule bites here. Of a box (after, by] all has come by `by`, and nothing by `after`. Strictly between
 * the two anything from nothing to all of it may have come: there the curve is not defined, and the bounds
 * are as far apart as the box is heavy. Inside a last box (after, ∞] the lower bound is 0 for ever.
 *
 * Unit:    a share, 0 to 1
 * @example survivalAt([{ after: 3, by: 5, mass: 1 }], 4) // → { low: 0, high: 1 }
 */
export function survivalAt(support: readonly MassIn[], time: number): Bounds {
  if (Number.isNaN(time)) throw new RangeError('survival is asked at no time: NaN');
  let all = 0;
  let surelyLater = 0;
  let perhapsLater = 0;
  for (const { after, by, mass } of support) {
    all += mass;
    if (by > time) perhapsLater += mass;
    if (by > time && after >= time) surelyLater += mass;
  }
  return { low: surelyLater / all, high: perhapsLater / all };
}

import { intervalCensoredSurvival } from './interval-censored-survival.js';
import type { Interval } from './interval.js';

/**
 * A score for each interval: how much earlier it says than the common curve led one to expect.
 *
 * A positive score says sooner than expected, a negative one later; together they sum to 0. For an exact time it is 1 less the
 * cumulative hazard up to and with it, for one cut off it is 0 less the hazard survived: what was seen less what was
 * expected. For an interval it is that, averaged over where the common curve puts the event in it:
 *
 *     [ S(by) · H(by) − S(after) · H(after) ] ÷ [ S(after) − S(by) ],   H the sum of mass ÷ S just before it
 *
 * with S the interval-censored estimate of all together; at S = 0 the product is 0. No interval ends inside a box, so S
 * and H are known wherever they are asked. With exact and cut-off times only, a group's scores sum to the "observed less
 * expected" of the log-rank test.
 *
 * Shape:   intervals → as many scores, in their order; they do not change with the unit of time
 * Source:  J. Sun (1996); M. P. Fay and P. A. Shaw (2010), where it is called the logrank1 score
 * Checked: tests/statistics/log-rank-scores.test.ts
 * @example logRankScores([{ after: 0, by: 1 }, { after: 1, by: Infinity }]) // → [0.5, -0.5]
 */
export function logRankScores(intervals: readonly Interval[]): number[] {
  const { support } = intervalCensoredSurvival(intervals);
  const levels = [{ survival: 1, hazard: 0 }];
  for (const { mass } of support) {
    const { survival, hazard } = levels.at(-1)!;
    const left = Math.max(0, survival - mass);
    levels.push({ survival: left, hazard: hazard + (left > 0 ? mass / survival : 1) });
  }
  levels.at(-1)!.survival = 0;
  return intervals.map(({ after, by }) => {
    const exact = after === by;
    const start = levels[countUntil(support, (box) => (exact ? box.by < by : box.by <= after))]!;
    const end = levels[countUntil(support, (box) => box.by <= by)]!;
    const fall = start.survival - end.survival;
    return (end.survival * end.hazard - start.survival * start.hazard) / fall;
  });
}

/** How many boxes at the front, which stand from early to late, do so. */
function countUntil(support: readonly Interval[], does: (box: Interval) => boolean): number {
  let low = 0;
  let high = support.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (does(support[middle]!)) low = middle + 1;
    else high = middle;
  }
  return low;
}

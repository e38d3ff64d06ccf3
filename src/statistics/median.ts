import { checkedLevel, type Estimate } from './estimate.js';

/**
 * The median of some values, with bounds that suppose nothing of how they are spread.
 *
 * The bounds are the values so far from either end that fewer would lie outside only with the small chance left on that side, if each
 * value were as likely above the true median as below it. Five values or fewer say too little for a level of 0.95: there is no bound. Of an even
 * number the median is the middle of the two. It supposes values that come singly.
 *
 * Shape:   values in any order → median, and bounds that are values themselves, or −Infinity and Infinity
 * Valid:   one value or more
 * Error:   RangeError
 * Source:  the sign test, inverted; W. R. Thompson (1936)
 * Checked: tests/statistics/median.test.ts, against the printed table of ranks
 * @example median([7, 1, 2, 2, 3, 4]) // → { value: 2.5, low: 1, high: 7 }
 */
export function median(values: readonly number[], { level = 0.95 }: { level?: number } = {}): Estimate {
  const outside = (1 - checkedLevel(level)) / 2;
  const count = values.length;
  if (count < 1) throw new RangeError('no values: expected one or more');
  const sorted = values.toSorted((a, b) => a - b);
  let rank = 0;
  // Of a thousand values, the chance that all lie on one side is below what a number holds: its logarithm is not.
  let logOfExactly = -count * Math.LN2;
  for (let fewer = Math.exp(logOfExactly); fewer <= outside; fewer += Math.exp(logOfExactly)) {
    rank += 1;
    logOfExactly += Math.log((count - rank + 1) / rank);
  }
  const [lower, upper] = [Math.ceil(count / 2) - 1, Math.floor(count / 2)];
  return {
    value: (sorted[lower]! + sorted[upper]!) / 2,
    low: sorted[rank - 1] ?? -Infinity,
    high: sorted[count - rank] ?? Infinity,
  };
}

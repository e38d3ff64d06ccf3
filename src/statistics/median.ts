import { checkedLevel, type Estimate } from './estimate.js';

/**
 * The median of some values, with bounds that suppose nothing of how they are spread.
 *
 * The bounds are the values so far from either end that fewer would lie outside only with the small chance left on that side, if each
 * value were as likely above the true median as below it. Five values or fewer say too little for a level of 0.95: there is no bound. Of an even
 * number the median is the middle of the two. It supposes values that come singly.
 *
 * Shape:   values in any order → median, and bounds that are values themselves, or −Infinity and Infinity
 * Valid:   1 to 1000 values
 * Error:   RangeError
 * Source:  the sign test, inverted; W. R. Thompson (1936)
 * Checked: tests/statistics/median.test.ts, against the printed table of ranks
 * @example median([7, 1, 2, 2, 3, 4]) // → { value: 2.5, low: 1, high: 7 }
 */
export function median(values: readonly number[], { level = 0.95 }: { level?: number } = {}): Estimate {
  const outside = (1 - checkedLevel(level)) / 2;
  const count = values.length;
  if (count < 1 || count > most) throw new RangeError(`${count} values: expected 1 to ${most}`);
  const sorted = values.toSorted((a, b) => a - b);
  let rank = 0;
  let exactly = 0.5 ** count;
  for (let fewer = exactly; fewer <= outside; fewer += exactly) {
    rank += 1;
    exactly *= (count - rank + 1) / rank;
  }
  const [lower, upper] = [Math.ceil(count / 2) - 1, Math.floor(count / 2)];
  return {
    value: (sorted[lower]! + sorted[upper]!) / 2,
    low: sorted[rank - 1] ?? -Infinity,
    high: sorted[count - rank] ?? Infinity,
  };
}

/** Of more, the chance that all lie on one side is below what a number holds. */
const most = 1000;

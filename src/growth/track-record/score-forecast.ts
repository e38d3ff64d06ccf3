import { growthNumbers } from '../../reference/growth-numbers.js';

/** What is scored of one forecast: the chance of being out by a day, and its best day; null where there is none within five years. */
export interface ToScore {
  readonly chanceOutBy: (day: number) => number;
  /** A day number, not rounded. */
  readonly best: number | null;
}

/** One forecast against what came: how much of it lay inside the range, 0 to 1, and how many days the best day was off. */
export interface ForecastScore {
  readonly inRange: number;
  readonly errorDays: number;
}

const { early, late, horizon } = growthNumbers.forecast;

/**
 * Scores a forecast against the days between which the gap was seen to have grown out.
 *
 * Nobody saw the day itself, only that it fell in (after, by]. So the share of the chance spent over those days
 * that lies inside the range counts, not a yes or no; and a best day anywhere between them is not off at all.
 *
 * Unit:    chances 0 to 1; day numbers
 * Source:  the probability integral transform, censored; shared/growth.json `forecast`
 * Checked: tests/hand-worked/track-record.test.ts, tests/growth/track-record.test.ts
 */
export function scoreForecast(
  { chanceOutBy, best }: ToScore,
  truth: { readonly after: number; readonly by: number },
): ForecastScore {
  return {
    inRange: shareInside(chanceOutBy(truth.after), chanceOutBy(truth.by)),
    errorDays: best === null ? horizon.value : Math.max(0, truth.after - best, best - truth.by),
  };
}

function shareInside(one: number, other: number): number {
  const low = Math.min(one, other);
  const high = Math.max(one, other);
  if (low === high) return low >= early.value && low <= late.value ? 1 : 0;
  return Math.max(0, Math.min(high, late.value) - Math.max(low, early.value)) / (high - low);
}

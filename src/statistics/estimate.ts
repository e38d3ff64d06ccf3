/** An estimate with its bounds. */
export type Estimate = Readonly<{ value: number; low: number; high: number }>;

/** What is known of a number: it is no lower and no higher than this. */
export type Bounds = Readonly<{ low: number; high: number }>;

/**
 * When something happened, as far as it was seen: after the one moment, by the other. `(after, by]`.
 *
 * The endpoint rule, which holds for everything in this folder: `after` is out, `by` is in.
 *
 * - `{ after: 28, by: 42 }`: not yet on day 28, done on day 42.
 * - `{ after: 42, by: Infinity }`: not yet on day 42, and not seen again. An event exactly on day 42 is not
 *   among its possibilities: who was still waiting on day 42 has not had it on day 42.
 * - `{ after: 42, by: 42 }`: exactly on day 42. Taken by the letter (42, 42] would hold nothing; here it means
 *   that one moment itself.
 *
 * So of an event and a last look on the same day the event comes first, as Kaplan and Meier have it.
 */
export type Interval = Readonly<{ after: number; by: number }>;

/**
 * An interval, refused when it cannot be one.
 *
 * Valid:   `after` finite; `by` at or past it, or Infinity
 * Error:   RangeError
 * Checked: tests/statistics/interval.test.ts
 * @example interval(28, 42) // → { after: 28, by: 42 }
 */
export function interval(after: number, by: number): Interval {
  if (Number.isFinite(after) && by >= after) return { after, by };
  throw new RangeError(`(${after}, ${by}] is no interval: expected a finite start and an end at or past it`);
}

/**
 * A level of confidence, refused unless it lies between 0 and 1.
 *
 * Error:   RangeError; 95 for 0.95 is the usual slip
 * Checked: tests/statistics/shares-and-rates.test.ts
 * @example checkedLevel(0.95) // → 0.95
 */
export function checkedLevel(level: number): number {
  if (level > 0 && level < 1) return level;
  throw new RangeError(`a level of ${level}: expected above 0 and below 1, such as 0.95`);
}

/** The largest of any number of values, and never less than `atLeast`. @example largest([3, 7], 5) // → 7 */
export function largest(values: Iterable<number>, atLeast = Number.NEGATIVE_INFINITY): number {
  let most = atLeast;
  for (const value of values) most = Math.max(most, value);
  return most;
}

/** The smallest of any number of values, and never more than `atMost`. @example smallest([3, 7], 5) // → 3 */
export function smallest(values: Iterable<number>, atMost = Number.POSITIVE_INFINITY): number {
  let least = atMost;
  for (const value of values) least = Math.min(least, value);
  return least;
}

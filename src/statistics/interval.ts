/**
 * When something happened, as far as it was seen: after the one moment, by the other. `(after, by]`.
 *
 * The endpoint rule, which holds for everything in this folder: `after` is out, `by` is in.
 *
 * - `{ after: 28, by: 42 }`: not yet on day 28, done on day 42.
 * - `{ after: 42, by: Infinity }`: not yet on day 42, and not seen again. An event exactly on day 42 is not
 *   among its possibilities: who was still waiting on day 42 has not had it on day 42.
 * - `{ after: 42, by: 42 }`: exactly on day 42. Taken by the letter (42, 42] would hold nothing; here it stands
 *   for the one moment itself.
 *
 * So of an event and a last look on the same day the event comes first, as Kaplan and Meier have it.
 */
export interface Interval {
  readonly after: number;
  readonly by: number;
}

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

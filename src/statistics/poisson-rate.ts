import { checkedLevel, type Estimate } from './estimate.js';
import { firstReach } from './first-reach.js';

/**
 * A rate from a count of events and the time at risk, with exact bounds.
 *
 * The lower bound is the rate at which so many events or more would be seen only with the small chance left outside on that
 * side; the upper that at which so few or fewer would (Garwood). They promise at least the level, and with few events
 * more than it. It supposes events that come singly and independently: an outbreak, or one cow's four lesions, do not.
 *
 * Shape:   events, exposure → events per unit of exposure
 * Unit:    that of the exposure: 100 cow-years in, events per 100 cow-years out
 * Valid:   whole events from 0; exposure above 0
 * Error:   RangeError; bounds of the expected count within 1e-9
 * Source:  F. Garwood (1936), exact bounds of a Poisson count
 * Checked: tests/statistics/shares-and-rates.test.ts, against the printed table
 * @example poissonRate(0, 2, { level: 0.5 }).high // → Math.LN2
 */
export function poissonRate(
  events: number,
  exposure: number,
  { level = 0.95 }: { level?: number } = {},
): Estimate {
  if (!Number.isInteger(events) || events < 0)
    throw new RangeError(`${events} events: expected a whole count`);
  if (!(exposure > 0 && exposure < Infinity))
    throw new RangeError(`an exposure of ${exposure}: expected above 0`);
  const outside = (1 - checkedLevel(level)) / 2;
  const low = {
    at: (expected: number) => poissonAtLeast(events, expected),
    slope: (expected: number) => poissonExactly(events - 1, expected),
  };
  const high = {
    at: (expected: number) => -poissonAtMost(events, expected),
    slope: (expected: number) => poissonExactly(events, expected),
  };
  const farAbove = events + 20 + 40 * Math.sqrt(events + 1) - 2 * Math.log(outside);
  const from = (start: number) => ({ from: start, to: farAbove, step: farAbove });
  return {
    value: events / exposure,
    low: events === 0 ? 0 : (firstReach(low, outside, from(0)) ?? Number.NaN) / exposure,
    high: (firstReach(high, -outside, from(0)) ?? Number.NaN) / exposure,
  };
}

/**
 * The chance that so many events or more happen where so many are expected.
 *
 * The sum over counts is taken from the largest term downward, so that no digits cancel.
 *
 * Valid:   a whole count from 0; an expected number from 0
 * Error:   relative, about 1e-15 × count × its logarithm: 1e-13 for a count of 20, 1e-11 for 1000
 * Source:  the Poisson distribution; own summing
 * Checked: tests/statistics/shares-and-rates.test.ts
 * @example poissonAtLeast(1, Math.LN2) // → 0.5
 */
export function poissonAtLeast(count: number, expected: number): number {
  if (count === 0) return 1;
  if (expected === 0) return 0;
  if (count <= expected) return 1 - poissonAtMost(count - 1, expected);
  let term = 1;
  let sum = 0;
  for (let k = count; term > sum * 1e-17; k++) {
    sum += term;
    term *= expected / (k + 1);
  }
  return sum * poissonExactly(count, expected);
}

/** The chance of so many events or fewer. @example poissonAtMost(0, Math.LN2) // → 0.5 */
export function poissonAtMost(count: number, expected: number): number {
  if (expected === 0) return 1;
  if (count >= expected) return 1 - poissonAtLeast(count + 1, expected);
  let term = 1;
  let sum = 0;
  for (let k = count; k >= 0 && term > sum * 1e-17; k--) {
    sum += term;
    term *= k / expected;
  }
  return sum * poissonExactly(count, expected);
}

/** The chance of just so many events. @example poissonExactly(0, 1) // → Math.exp(-1) */
export function poissonExactly(count: number, expected: number): number {
  if (expected === 0) return count === 0 ? 1 : 0;
  let logarithm = -expected;
  for (let k = 1; k <= count; k++) logarithm += Math.log(expected / k);
  return Math.exp(logarithm);
}

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

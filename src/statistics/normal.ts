import { erfc } from './error-function.js';

/**
 * The chance that a standard normal value falls at or below z.
 *
 * Error:   relative, 2e-15 from −5 up; further down the rounding of z itself counts, z² times 1e-16 or so
 * Source:  ½ · erfc(−z/√2)
 * Checked: tests/statistics/normal.test.ts
 * @example normalBelow(0) // → 0.5
 */
export function normalBelow(z: number): number {
  return erfc(-z * Math.SQRT1_2) / 2;
}

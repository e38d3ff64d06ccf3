import { healingNumbers } from '../reference/healing-numbers.js';

/**
 * The smallest change that two readings can tell apart, from the SD of each.
 *
 * Unit:    mm
 * Source:  shared/healing.json `tellApart`
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function smallestDetectableChangeMm(sigmaMm: number, otherSigmaMm: number): number {
  return healingNumbers.tellApart.value * Math.hypot(sigmaMm, otherSigmaMm);
}

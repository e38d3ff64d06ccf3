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

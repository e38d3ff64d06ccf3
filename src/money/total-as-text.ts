import type { Costs } from './costs.js';
import { sumAsText } from './hundredths.js';

/**
 * A total to print. Where there was something and nothing of it has a price, there is no sum to tell: 0.00 would say that it cost nothing.
 *
 * Checked: tests/money/costs.test.ts
 */
export function totalAsText({ lines, total, notInSum }: Costs): string {
  return lines.length === 0 && notInSum.length > 0 ? '–' : sumAsText(total);
}

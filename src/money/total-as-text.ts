import type { Costs } from './costs.js';
import { sumAsText } from './hundredths.js';

/**
 * A total as decimal text. Undefined where there was something and nothing of it has a price: 0.00 would say that it cost nothing.
 *
 * Checked: tests/cli/costs.test.ts
 */
export function totalOf({ lines, total, notInSum }: Costs): string | undefined {
  return lines.length === 0 && notInSum.length > 0 ? undefined : sumAsText(total);
}

/**
 * The same to print.
 *
 * Checked: tests/money/costs.test.ts
 */
export function totalAsText(costs: Costs): string {
  return totalOf(costs) ?? '–';
}

/** One polynomial over another, the coefficients of the highest power first. */
export interface Rational {
  readonly over: readonly number[];
  readonly under: readonly number[];
}

/**
 * The value of a rational function, by Horner's rule.
 *
 * Checked: tests/statistics/normal.test.ts
 * @example ratioOf(2, { over: [1, 0], under: [1] }) // → 2
 */
export function ratioOf(x: number, { over, under }: Rational): number {
  return polynomial(x, over) / polynomial(x, under);
}

function polynomial(x: number, coefficients: readonly number[]): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}

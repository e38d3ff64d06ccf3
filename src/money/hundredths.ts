/**
 * A sum of money: whole hundredths of the currency, so that adding never drifts.
 *
 * Why not a number: 0.1 + 0.2 is not 0.3 there, and an invoice that is a hundredth off is wrong.
 */
export type Hundredths = bigint;

/**
 * The product of decimals as they were written, rounded once, half up.
 *
 * Shape:   a count and a price, or days, litres and a price → hundredths
 * Valid:   numbers of 0 or more
 * Error:   RangeError for what is no such number
 * Checked: tests/money/hundredths.test.ts
 * @example hundredthsOf(3, 14.5) // → 4350n
 * @example hundredthsOf(6, 29.5, 0.385) // → 6815n
 */
export function hundredthsOf(...factors: readonly number[]): Hundredths {
  let digits = 1n;
  let places = 0;
  for (const factor of factors) {
    const exact = exactly(factor);
    digits *= exact.digits;
    places += exact.places;
  }
  if (places <= 2) return digits * 10n ** BigInt(2 - places);
  const unit = 10n ** BigInt(places - 2);
  return (digits + unit / 2n) / unit;
}

/** A sum as it is printed, with its two decimals and no other sign. @example sumAsText(4350n) // → '43.50' */
export function sumAsText(sum: Hundredths): string {
  return `${sum / 100n}.${String(sum % 100n).padStart(2, '0')}`;
}

/** A number as the digits that were written and how many of them follow the point. */
function exactly(number: number): { readonly digits: bigint; readonly places: number } {
  const [, whole, part = '', exponent = '0'] =
    /^(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(String(number)) ?? [];
  if (whole === undefined) throw new RangeError(`not an amount: ${number}`);
  const digits = BigInt(whole + part);
  const places = part.length - Number(exponent);
  return places >= 0 ? { digits, places } : { digits: digits * 10n ** BigInt(-places), places: 0 };
}

/**
 * A price as it was written, with two decimals where it has fewer.
 *
 * @example priceText(45) // → '45.00'
 * @example priceText(0.385) // → '0.385'
 */
export function priceText(price: number): string {
  const [whole, part = ''] = String(price).split('.');
  return `${whole}.${part.padEnd(2, '0')}`;
}

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

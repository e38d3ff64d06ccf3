import type { Business } from '../record/business.js';
import type { Farm } from '../record/farm.js';
import { type Hundredths, hundredthsOf } from './hundredths.js';
import { isOurs } from './is-ours.js';
import type { PieceOfWork } from './work-done.js';

export type CostKind = PieceOfWork['what'] | 'milk';

/** One kind of cost: how many pieces, or days of milk, at what price. */
export interface CostLine {
  readonly what: CostKind;
  readonly count: number;
  /** Of one; absent for products, which each have a cost of their own. */
  readonly price?: number;
  /** Of milk: litres a cow a day. */
  readonly litres?: number;
  readonly sum: Hundredths;
}

/** What is on record and not in the sum, and why. */
export interface NotInSum {
  readonly what: CostKind;
  readonly count: number;
  /** `others`: done by somebody who is not of the business. */
  readonly why: 'no-price' | 'no-cost' | 'no-litres' | 'not-recorded' | 'others';
}

export interface Costs {
  readonly currency: string;
  /** Only kinds that there was something of, and whose price is known. */
  readonly lines: readonly CostLine[];
  readonly total: Hundredths;
  readonly notInSum: readonly NotInSum[];
}

/** Where the prices stand. */
export interface Prices {
  readonly business: Business;
  readonly farm: Pick<Farm, 'milk-litres'>;
}

/**
 * What some work and some withheld milk come to; undefined where the business gives no prices.
 *
 * Each line is rounded to hundredths, half up, and the total adds the lines as printed. What has no price is not guessed:
 * it stands under `notInSum`.
 *
 * Checked: tests/money/costs.test.ts (by hand)
 */
export function costsOf(
  { business, farm }: Prices,
  pieces: readonly PieceOfWork[],
  milk: { readonly days: number; readonly notKnown: number },
): Costs | undefined {
  const { prices } = business;
  if (!prices) return undefined;
  const lines: CostLine[] = [];
  const notInSum: NotInSum[] = [];
  const leftOut = (what: CostKind, count: number, why: NotInSum['why']) => {
    if (count > 0) notInSum.push({ what, count, why });
  };
  for (const what of ['visit', 'block', 'wrap'] as const) {
    const all = pieces.filter((piece) => piece.what === what);
    const count = all.filter(({ by }) => isOurs(business, by)).length;
    const price = prices[what];
    if (price === undefined) leftOut(what, count, 'no-price');
    else if (count > 0) lines.push({ what, count, price, sum: hundredthsOf(count, price) });
    leftOut(what, all.length - count, 'others');
  }
  const products = pieces.flatMap(({ product }) => product ?? []);
  const costs = products.flatMap(({ cost }) => (cost === undefined ? [] : hundredthsOf(cost)));
  if (costs.length > 0) lines.push({ what: 'product', count: costs.length, sum: added(costs) });
  leftOut('product', products.length - costs.length, 'no-cost');
  const { 'milk-litres': litres } = farm;
  const price = prices['milk-litre'];
  if (price === undefined) leftOut('milk', milk.days, 'no-price');
  else if (litres === undefined) leftOut('milk', milk.days, 'no-litres');
  else if (milk.days > 0)
    lines.push({
      what: 'milk',
      count: milk.days,
      price,
      litres,
      sum: hundredthsOf(milk.days, litres, price),
    });
  leftOut('milk', milk.notKnown, 'not-recorded');
  return { currency: prices.currency, lines, total: added(lines.map(({ sum }) => sum)), notInSum };
}

function added(sums: readonly Hundredths[]): Hundredths {
  return sums.reduce((sum, one) => sum + one, 0n);
}

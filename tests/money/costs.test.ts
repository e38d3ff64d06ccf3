import { expect, test } from 'vitest';
import { costsOf } from '../../src/money/costs.js';
import { sumAsText } from '../../src/money/hundredths.js';
import { totalAsText } from '../../src/money/year-costs.js';
import { workDone } from '../../src/money/work-done.js';
import type { Business } from '../../src/record/business.js';
import { cow, visit } from '../herd/invented-herd.js';
import { priced } from './worked.js';

const animal = cow('1', [
  visit('2026-01-06', {
    blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }],
    wraps: [{ foot: 'RH', event: 'fitted' }],
    products: [{ product: 'paste', cost: 2.4 }, { product: 'gel' }],
  }),
  visit('2026-02-03', {
    blocks: [{ foot: 'LH', claw: 'inner', event: 'replaced' }],
    products: [{ product: 'paste', cost: 0.605 }],
  }),
  visit('2026-02-10', { by: 'P. Wexmarrow' }),
]);
const pieces = workDone(animal, 'quernholt', '2026-06-16');
const milk = { days: 6, notKnown: 1 };
const told = (business: Business, litres: number | undefined = 29.5) => {
  const costs = costsOf(
    { business, farm: litres === undefined ? {} : { 'milk-litres': litres } },
    pieces,
    milk,
  );
  return (
    costs && {
      lines: costs.lines.map(({ what, count, sum }) => `${count} ${what} ${sumAsText(sum)}`),
      total: sumAsText(costs.total),
      not: costs.notInSum.map(({ what, count, why }) => `${count} ${what} ${why}`),
    }
  );
};

test('by hand: 3 visits, 2 blocks, a wrap, two products, six days of milk', () => {
  expect(told(priced)).toEqual({
    lines: [
      '3 visit 135.00', // 3 × 45
      '2 block 29.00', // 2 × 14.50
      '1 wrap 4.00',
      '2 product 3.01', // 2.40 + 0.605, each rounded half up: 2.40 + 0.61
      '6 milk 67.26', // 6 × 29.5 × 0.38 = 67.26
    ],
    total: '238.27', // 135 + 29 + 4 + 3.01 + 67.26
    not: ['1 product no-cost', '1 milk not-recorded'],
  });
});

test('work by somebody who is not of the business has no price of ours', () => {
  expect(told({ ...priced, trimmer: 'Orla Venn' })).toMatchObject({
    lines: expect.arrayContaining(['2 visit 90.00']),
    total: '193.27', // 238.27 − 45
    not: ['1 visit others', '1 product no-cost', '1 milk not-recorded'],
  });
});

test('what has no price is reported, never guessed', () => {
  const some: Business = { prices: { currency: 'GBP', block: 14.5 } };
  expect(told(some)).toEqual({
    lines: ['2 block 29.00', '2 product 3.01'],
    total: '32.01',
    not: [
      '3 visit no-price',
      '1 wrap no-price',
      '1 product no-cost',
      '6 milk no-price',
      '1 milk not-recorded',
    ],
  });
  const noLitres = costsOf({ business: priced, farm: {} }, pieces, milk);
  expect(noLitres?.notInSum).toContainEqual({ what: 'milk', count: 6, why: 'no-litres' });
});

test('without prices there are no costs at all, even where a product has one', () => {
  expect(told({})).toBeUndefined();
});

test('where nothing has a price there is no total to print, and where nothing was done it is zero', () => {
  const { currency } = priced.prices!;
  const bare = (work: typeof pieces) =>
    costsOf(
      { business: { ...priced, prices: { currency } }, farm: {} },
      work.filter(({ what }) => what !== 'product'),
      { days: 0, notKnown: 0 },
    )!;
  expect(totalAsText(bare(pieces))).toBe('–');
  expect(totalAsText(bare([]))).toBe('0.00');
});

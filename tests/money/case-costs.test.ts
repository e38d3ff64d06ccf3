import { expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { caseCosts } from '../../src/money/costs.js';
import { sumAsText } from '../../src/money/hundredths.js';
import { yearCosts } from '../../src/money/year-costs.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { cow, herd, visit } from '../herd/invented-herd.js';
import { milking, priced, worked } from './worked.js';

const today = '2026-06-16';

test('an animal of the demo, added up by hand from her file', () => {
  const { practice } = readPractice(nodeCaseFiles, 'cases', { today });
  const farm = practice.farms.find(({ slug }) => slug === 'quernholt')!;
  const record = farm.cases.find(({ slug }) => slug === '2155')!;
  const work = workOutCase(farm, record, { business: practice.business, today, prior: publishedPrior });
  const { costs, toFinish } = caseCosts(practice.business, farm, work, today)!;
  expect(costs.lines.map(({ what, count, sum }) => [what, count, sumAsText(sum)])).toEqual([
    // Lifted 3 and 31 March, 28 April, 26 May: 4 × 45
    ['visit', 4, '180.00'],
    // Fitted 3 March, replaced 31 March: 2 × 14.50
    ['block', 2, '29.00'],
    // 0.60 + 38 + 9.80
    ['product', 3, '48.40'],
    // First dose 12 June, last 14 June and 5 days: through the 19th; to the 16th that is 13, 14, 15, 16.
    // The other, 3 days from the 12th, lies within. 4 × 29 × 0.38 = 44.08
    ['milk', 4, '44.08'],
  ]);
  expect(sumAsText(costs.total)).toBe('301.48');
  // The wrap of 12 June is the vet's, written by the farm; the pain relief of 28 April has no cost written.
  expect(costs.notInSum).toEqual([
    { what: 'wrap', count: 1, why: 'others' },
    { what: 'product', count: 1, why: 'no-cost' },
  ]);
  // Infected: no date, so nothing is said of what is to come.
  expect(toFinish).toEqual({ outcome: 'none', why: 'no-date', lesions: ['a'] });
});

test('only the lameness episode that is open counts; of a closed case nothing is to come', () => {
  const visits = [visit('2025-01-10'), visit('2025-02-10'), visit('2026-05-01'), visit('2026-05-29')];
  const running = worked(
    cow('1', visits, {
      episodes: [{ ended: '2025-03-01', result: 'sound' }, { 'lame-since': '2026-04-20' }],
    }),
    today,
  );
  const costs = caseCosts(priced, running.farm, running.work, today)!;
  expect(sumAsText(costs.costs.total)).toBe('90.00');
  expect(costs.toFinish).toBeDefined();
  const closed = worked(cow('1', visits, { episodes: [{ ended: '2026-06-01', result: 'sound' }] }), today);
  const over = caseCosts(priced, closed.farm, closed.work, today)!;
  expect(sumAsText(over.costs.total)).toBe('180.00');
  expect(over.toFinish).toBeUndefined();
  expect(caseCosts({}, closed.farm, closed.work, today)).toBeUndefined();
});

test('a farm year by year: work by its own day, milk by the day it was withheld', () => {
  const calved = { calvings: ['2025-10-01'] };
  const farm = herd(
    'quernholt',
    [
      cow(
        '1',
        [
          visit('2025-12-30', {
            // Withheld 31 December to 3 January: 1 day of 2025, 3 of 2026.
            products: [{ product: 'x', 'milk-days': 4, cost: 10 }],
          }),
          visit('2026-02-03', { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }),
        ],
        calved,
      ),
      cow('2', [visit('2026-02-03', { products: [{ product: 'y', 'milk-days': 2 }] })], calved),
    ],
    milking,
  );
  const told = yearCosts(priced, farm, today).map(({ year, costs }) => [
    year,
    ...costs.lines.map(({ what, count, sum }) => `${count} ${what} ${sumAsText(sum)}`),
    sumAsText(costs.total),
  ]);
  expect(told).toEqual([
    // 1 × 29 × 0.38 = 11.02
    ['2025', '1 visit 45.00', '1 product 10.00', '1 milk 11.02', '66.02'],
    // 2 × 45; 14.50; 3 days of cow 1 and 2 of cow 2: 5 × 29 × 0.38 = 55.10
    ['2026', '2 visit 90.00', '1 block 14.50', '5 milk 55.10', '159.60'],
  ]);
  expect(yearCosts({}, farm, today)).toEqual([]);
});

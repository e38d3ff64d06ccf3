import { expect, test } from 'vitest';
import { milkWithheld } from '../../src/money/costs.js';
import { workDone } from '../../src/money/work-done.js';
import type { Animal } from '../../src/record/animal.js';
import type { ProductUse } from '../../src/record/visit.js';
import { cow, visit } from '../herd/invented-herd.js';

const today = '2026-06-16';

function milkOf(products: ProductUse[], more: Partial<Animal> = {}, day = today) {
  const animal = cow('1', [visit('2026-03-01', { products })], { calvings: ['2025-11-01'], ...more });
  return milkWithheld(
    animal,
    workDone(animal, 'quernholt', day),
    { farm: 'Quernholt', 'milkings-a-day': 2 },
    day,
  );
}

const days = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, at) => `2026-03-${String(from + at).padStart(2, '0')}`);

test('4 days after one dose on 1 March: the 2nd to the 5th', () => {
  expect(milkOf([{ product: 'x', 'milk-days': 4 }]).days).toEqual(days(2, 5));
});

test('a course from 1 to 3 March with 4 days: the 2nd to the 7th', () => {
  expect(milkOf([{ product: 'x', on: '2026-03-01', until: '2026-03-03', 'milk-days': 4 }]).days).toEqual(
    days(2, 7),
  );
});

test('spans that overlap count once: 2nd to 5th and 4th to 7th are six days, not eight', () => {
  const two = [
    { product: 'x', 'milk-days': 4 },
    // Given on the 3rd, 4 days: 4th to 7th.
    { product: 'y', on: '2026-03-03', 'milk-days': 4 },
  ];
  expect(milkOf(two).days).toEqual(days(2, 7));
});

test('hours and milkings as the schedule counts them: 36 hours are 2 days, 5 milkings at two a day are 3', () => {
  expect(milkOf([{ product: 'x', 'milk-hours': 36 }]).days).toEqual(days(2, 3));
  expect(milkOf([{ product: 'x', 'milk-milkings': 5 }]).days).toEqual(days(2, 4));
});

test('only to the day asked about; nothing withheld is no day', () => {
  expect(milkOf([{ product: 'x', 'milk-days': 4 }], {}, '2026-03-03').days).toEqual(days(2, 3));
  expect(milkOf([{ product: 'x', 'milk-days': 0 }]).days).toEqual([]);
});

test('a medicine without a period is counted apart, and one that is no medicine is not', () => {
  expect(milkOf([{ product: 'x', class: 'medicine' }])).toEqual({ days: [], notKnown: ['2026-03-01'] });
  expect(milkOf([{ product: 'x', class: 'not a medicine' }])).toEqual({ days: [], notKnown: [] });
});

test('days without milk are not counted: dry, a heifer before she calves, gone', () => {
  const use = [{ product: 'x', 'milk-days': 4 }];
  expect(milkOf(use, { calvings: ['2025-04-01'], 'dried-off': ['2026-03-04'] }).days).toEqual(days(2, 3));
  expect(milkOf(use, { calvings: [] })).toEqual({ days: [], notKnown: ['2026-03-01'] });
  // Calving on the 4th, with 3 days after calving: the 4th to the 7th.
  const dry = [{ product: 'x', 'milk-days': 4, 'milk-days-after-calving': 3 }];
  expect(milkOf(dry, { calvings: ['2026-03-04'] })).toEqual({ days: days(4, 7), notKnown: [] });
  expect(milkOf(use, { episodes: [{ ended: '2026-03-03', result: 'culled' }] }).days).toEqual(days(2, 3));
  expect(milkOf(use, { episodes: [{ ended: '2026-03-03', result: 'sound' }] }).days).toEqual(days(2, 5));
});

import { expect, test } from 'vitest';
import { lesionRates, quarterOf, quarterStarts, seasonOf } from '../../src/herd/lesion-rates.js';
import { cow, herd, looks, visit } from './invented-herd.js';

const today = '2026-12-31';

test('a rate by hand: 3 lesions in a year of 200 cows', () => {
  const animals = [
    cow('1', looks(['2026-01-01', 'open'])),
    cow('2', looks(['2026-07-01', 'open'])),
    cow('3', [visit('2026-07-02', { found: { c: { stage: 'M2' } } })], {
      lesions: { c: { code: 'DD', foot: 'RH' } },
    }),
  ];
  const rates = lesionRates(herd('quernholt', animals, { herd: { cows: 200 }, hemisphere: 'north' }), today)!;
  // 1 January to 31 December, both in: 365 days. 200 × 365 ÷ 365.25 = 199.863 cow-years; 3 ÷ 1.99863 = 1.50103.
  expect(rates.all).toMatchObject({ lesions: 3, counted: 3 });
  expect(rates.all.cowYears).toBeCloseTo(199.863, 3);
  expect(rates.all.per100!.value).toBeCloseTo(1.50103, 5);
  // Printed exact bounds for 3 events: 0.6187 to 8.7673, each ÷ 1.99863.
  expect(rates.all.per100!.low).toBeCloseTo(0.6187 / 1.99863, 4);
  expect(rates.all.per100!.high).toBeCloseTo(8.7673 / 1.99863, 4);
  expect(rates.byKind.map(({ code, lesions }) => [code, lesions])).toEqual([
    ['DD', 1],
    ['WL', 2],
  ]);
  expect(rates.byClaw.map(({ foot, claw, lesions }) => [foot, claw, lesions])).toEqual([
    ['LH', 'outer', 2],
    ['RH', undefined, 1],
  ]);
  expect(rates.byQuarter.map(({ season, lesions }) => [season, lesions])).toEqual([
    ['winter', 1],
    ['spring', 0],
    ['summer', 2],
    ['autumn', 0],
  ]);
  // December to February: 31 + 28 + 31 = 90 days of 200 cows.
  expect(rates.byQuarter[0]!.cowYears).toBeCloseTo((200 * 90) / 365.25, 9);
  const quarters = rates.byQuarter.reduce((sum, { cowYears }) => sum + cowYears, 0);
  expect(quarters).toBeCloseTo(rates.all.cowYears, 9);
});

test('what was seen while the herd was not known is reported and not counted', () => {
  const animals = [cow('1', looks(['2026-01-01', 'open'])), cow('2', looks(['2026-07-01', 'open']))];
  const farm = herd('quernholt', animals, { herd: [{ from: '2026-06-01', cows: 100 }] });
  expect(lesionRates(farm, today)!.all).toMatchObject({ lesions: 2, counted: 1 });
  const unknown = lesionRates(herd('quernholt', animals), today)!.all;
  expect(unknown).toEqual({ lesions: 2, counted: 0, cowYears: 0 });
  expect(lesionRates(herd('quernholt', []), today)).toBeUndefined();
});

test('quarters begin with December, and are seasons only where the hemisphere is known', () => {
  expect(['2025-12-01', '2026-02-28', '2026-03-01', '2026-08-31', '2026-11-30'].map(quarterOf)).toEqual([
    '12',
    '12',
    '03',
    '06',
    '09',
  ]);
  expect(quarterStarts('2025-12-01', '2026-12-01')).toEqual(['2026-03-01', '2026-06-01', '2026-09-01']);
  expect(quarterStarts('2025-11-30', '2026-03-02')).toEqual(['2025-12-01', '2026-03-01']);
  expect(seasonOf('12', 'south')).toBe('summer');
  expect(seasonOf('03', 'south')).toBe('autumn');
  expect(seasonOf('12', undefined)).toBeUndefined();
});

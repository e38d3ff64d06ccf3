import { describe, expect, it } from 'vitest';
import { bathFills, weeksInLastYear, footbathSums, copperOnLand } from '../../src/herd/footbath/bath-sums.js';
import type { Farm } from '../../src/record/farm.js';

const bath = {
  product: 'copper sulphate',
  form: 'pentahydrate',
  strength: 5,
  litres: 200,
  'cows-per-fill': 100,
  'times-a-week': 3,
} as const;
const today = '2026-06-30';
const farm = (more: Partial<Farm>): Farm => ({
  farm: 'Quernholt',
  herd: { cows: 200 },
  'slurry-hectares': 100,
  ...more,
});

describe('fills and kilograms', () => {
  it('by hand', () => {
    // 200 l at 5 % is 10 kg. 200 cows, 3 times a week, 100 cows a fill: 6 fills a week, 312 a year, 3120 kg.
    expect(bathFills(bath, 200)).toEqual({
      kgPerFill: 10,
      fillsPerWeek: 6,
      weeksAYear: 52,
      fillsAYear: 312,
      kgAYear: 3120,
      missing: [],
    });
  });

  it('a period with both ends is bathed for its own weeks, never more than a year', () => {
    // 1 October to 30 March is 181 days with both ends in: 25 weeks and 6 days.
    const { weeksAYear, fillsAYear } = bathFills({ ...bath, from: '2025-10-01', to: '2026-03-30' }, 200);
    expect(weeksAYear).toBeCloseTo(181 / 7, 12);
    expect(fillsAYear).toBeCloseTo((6 * 181) / 7, 12);
    expect(bathFills({ ...bath, from: '2020-10-01', to: '2026-03-30' }, 200).weeksAYear).toBe(52);
    expect(bathFills({ ...bath, from: '2025-10-01' }, 200).weeksAYear).toBe(52);
  });

  it('says what is missing, and works out what it can', () => {
    const { litres: _, ...rest } = bath;
    expect(bathFills(rest, undefined)).toEqual({ weeksAYear: 52, missing: ['litres', 'cows'] });
    expect(bathFills({ product: 'copper sulphate', 'cows-per-fill': 0 }, 200).missing).toEqual([
      'strength',
      'litres',
      'cows-per-fill',
      'times-a-week',
    ]);
    expect(bathFills(rest, 200)).toMatchObject({ fillsAYear: 312, missing: ['litres'] });
  });
});

describe('copper on land', () => {
  it('by hand', () => {
    // 794.04 kg on 100 ha: 7.9404 kg/ha. A hectare 20 cm deep is 2000 m³, 2600 t: 1 kg is 1/2.6 = 0.385 mg/kg.
    const land = copperOnLand(794.04, 100);
    expect(land.kgPerHectare).toBeCloseTo(7.9404, 9);
    expect(land.risePerYear.most).toBeCloseTo(7.9404 / 2.6, 9);
    expect(land.risePerYear.least).toBeCloseTo(7.3404 / 2.6, 9);
    // 10 mg/kg: 26 ÷ 7.9404 = 3.27 years with nothing taken off, 26 ÷ 7.3404 = 3.54 with 0.6 kg.
    expect(land.yearsUntilRise.least).toBeCloseTo(3.2744, 4);
    expect(land.yearsUntilRise.most).toBeCloseTo(3.542, 4);
    // 1500 ÷ 7.9404
    expect(land.yearsUntilLoad.years).toBeCloseTo(188.907, 3);
  });

  it('one kilogram is 0.385 mg/kg, and what crops may take off need not rise at all', () => {
    const land = copperOnLand(1, 1, 20);
    expect(land.risePerYear.most).toBeCloseTo(0.385, 3);
    expect(copperOnLand(0.6, 1).yearsUntilRise.most).toBe(Infinity);
    expect(land.yearsUntilRise.least).toBeCloseTo(52, 9);
    expect(() => copperOnLand(1, 0)).toThrow(RangeError);
  });
});

describe('a farm', () => {
  it('one bath: 3120 kg of bluestone is 794.04 kg of copper', () => {
    const [sum] = footbathSums(farm({ footbath: [bath] }), today).baths;
    expect(sum).toMatchObject({ kind: 'copper', cows: 200 });
    expect(sum!.copper).toHaveLength(1);
    expect(sum!.copper[0]!.takenAs).toBeUndefined();
    expect(sum!.copper[0]!.kgCopper).toBeCloseTo(3120 * 0.2545, 9);
    expect(sum!.copper[0]!.land!.kgPerHectare).toBeCloseTo(7.9404, 9);
  });

  it('a form not written gives both answers', () => {
    const { form: _, ...unclear } = bath;
    const [sum] = footbathSums(farm({ footbath: [unclear] }), today).baths;
    expect(sum!.copper.map(({ takenAs }) => takenAs)).toEqual(['pentahydrate', 'anhydrous']);
    expect(sum!.copper[1]!.kgCopper).toBeCloseTo(3120 * 0.398, 9);
  });

  it('what is no copper by form or name has none', () => {
    const kinds = ['Formalin 37 %', 'zinc sulphate', 'Bluestone', 'hoof mix'].map((product) => {
      const { form: _, ...rest } = bath;
      const [sum] = footbathSums(farm({ footbath: [{ ...rest, product }] }), today).baths;
      return [sum!.kind, sum!.copper.length];
    });
    expect(kinds).toEqual([
      ['formaldehyde', 0],
      ['other', 0],
      ['copper', 2],
      ['other', 0],
    ]);
  });

  it('the last 12 months add up each bath for the weeks it ran', () => {
    const footbath = [
      { ...bath, from: '2025-10-01', to: '2026-03-31' }, // 182 days, 26 weeks: 26 × 60 kg
      { ...bath, from: '2026-04-01', 'times-a-week': 1 }, // 1 April to 30 June is 91 days, 13 weeks: 13 × 20 kg
      { ...bath, from: '2024-10-01', to: '2025-03-31' }, // over
      { ...bath, from: '2026-07-01' }, // not begun
    ];
    const sums = footbathSums(farm({ footbath }), today);
    expect(sums.baths).toHaveLength(3);
    expect(sums.lastYear!.kgProduct).toBeCloseTo(26 * 60 + 13 * 20, 9);
    expect(sums.lastYear!.copper).toHaveLength(1);
    expect(sums.lastYear!.copper[0]!.kgCopper).toBeCloseTo(1820 * 0.2545, 9);
    const { litres: _, ...rest } = bath;
    expect(footbathSums(farm({ footbath: [bath, rest] }), today).lastYear).toBeUndefined();
    expect(footbathSums(farm({}), today)).toEqual({ baths: [], hectaresMissing: false });
  });

  it('a year is twelve months up to the day', () => {
    expect(weeksInLastYear({ product: 'x' }, '2026-06-30')).toBeCloseTo(365 / 7, 12);
    expect(weeksInLastYear({ product: 'x', to: '2025-06-30' }, '2026-06-30')).toBe(0);
  });

  it('without hectares the copper is reported and the land is not', () => {
    const { herd, ...rest } = farm({ footbath: [bath] });
    const { 'slurry-hectares': _, ...unknown } = { ...rest, herd: herd! };
    const sums = footbathSums(unknown, today);
    expect(sums.hectaresMissing).toBe(true);
    expect(sums.baths[0]!.copper[0]).toEqual({ kgCopper: 3120 * 0.2545 });
  });
});

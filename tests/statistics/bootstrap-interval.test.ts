import { describe, expect, test } from 'vitest';
import { bootstrapInterval } from '../../src/statistics/bootstrap-interval.js';

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

// Three clusters 0, 3, 6 can be drawn in 27 ways. Means and ways: 0 1, 1 3, 2 6, 3 7, 4 6, 5 3, 6 1. Below 1 there is 1/27 =
// 3.7 %, up to and with 1 4/27 = 14.8 %: so the 80 % bounds are 1 and 5, the 95 % ones 0 and 6, by a wide margin of draws.
test('the bounds of every set that can be drawn, by hand', () => {
  const clusters = [[0], [3], [6]];
  expect(bootstrapInterval(clusters, meanOf, { seed: 3, level: 0.8 })).toMatchObject({ low: 1, high: 5 });
  expect(bootstrapInterval(clusters, meanOf, { seed: 3, level: 0.95 })).toMatchObject({ low: 0, high: 6 });
});

// Of 19 values the 90 % bounds are rank 20 · 0.05 = 1 from either end; of 39 the 2nd.
test.each([
  [19, 0],
  [39, 1],
])('of %i draws the bounds are %i places from the ends', (draws, place) => {
  let next = 0;
  const { low, high } = bootstrapInterval([[0], [1]], () => (next += 1), { seed: 1, level: 0.9, draws });
  expect([low, high]).toEqual([1 + place, draws - place]);
});

test('a cluster comes or stays away as one', () => {
  const seen = new Set<string>();
  bootstrapInterval(
    [
      ['a', 'b'],
      ['c', 'd'],
    ],
    (drawn) => {
      seen.add(drawn.join(''));
      return 0;
    },
    { seed: 1, draws: 200 },
  );
  expect([...seen].sort()).toEqual(['abab', 'abcd', 'cdab', 'cdcd']);
});

test('the seed settles it; another deals otherwise', () => {
  const clusters = Array.from({ length: 30 }, (_, k) => [k * k]);
  const run = (seed: number): unknown => bootstrapInterval(clusters, meanOf, { seed, draws: 499 });
  expect(run(1)).toEqual(run(1));
  expect(run(1)).not.toEqual(run(2));
});

test('Infinity may be a bound; sets without the statistic are counted', () => {
  const never = bootstrapInterval([[1], [Infinity]], (drawn) => Math.max(...drawn), { seed: 1 });
  expect(never).toMatchObject({ low: 1, high: Infinity, without: 0 });
  const some = bootstrapInterval([[1], [2]], (drawn) => (drawn.includes(1) ? 1 : undefined), {
    seed: 1,
    draws: 999,
  });
  expect(some.draws + some.without).toBe(999);
  expect(Math.abs(some.without / 999 - 0.25)).toBeLessThan(0.06);
});

// Means of 40 draws from a known spread: the percentile interval should be close to mean ± 1.96 standard errors.
test('of a mean it is about mean ± 1.96 standard errors', () => {
  const values = Array.from({ length: 40 }, (_, k) => (k * 37) % 101);
  const mean = meanOf(values);
  const error = Math.sqrt(meanOf(values.map((value) => (value - mean) ** 2)) / values.length);
  const { low, high } = bootstrapInterval(
    values.map((value) => [value]),
    meanOf,
    { seed: 9, draws: 3999 },
  );
  expect(Math.abs((low - mean) / error + 1.96)).toBeLessThan(0.15);
  expect(Math.abs((high - mean) / error - 1.96)).toBeLessThan(0.15);
});

describe('refused', () => {
  test.each([
    ['one cluster', [[1]], meanOf, {}],
    ['a statistic that is NaN', [[1], [2]], () => Number.NaN, {}],
    ['one that never exists', [[1], [2]], () => undefined, {}],
    ['too few draws for the level', [[1], [2]], meanOf, { draws: 30 }],
    ['a level in per cent', [[1], [2]], meanOf, { level: 95 }],
  ])('%s', (_, clusters, statistic, more) => {
    expect(() => bootstrapInterval(clusters, statistic, { seed: 1, ...more })).toThrow(RangeError);
  });
});

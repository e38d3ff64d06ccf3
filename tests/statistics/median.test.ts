import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { median } from '../../src/statistics/median.js';

const upTo = (count: number) => Array.from({ length: count }, (_, at) => at + 1);

// Of six values all lie on one side of the true median with the chance 1/64 = 0.0156, so least and most leave 0.031 outside.
// Of seven, 1/128 + 7/128 = 0.0625 would be too much for the second from the end.
// The ranks of the table of the sign test for 95 %: 10 → 2nd and 9th, 12 → 3rd and 10th, 20 → 6th and 15th, 25 → 8th and 18th.
test.each([
  [6, 3.5, 1, 6],
  [7, 4, 1, 7],
  [8, 4.5, 1, 8],
  [9, 5, 2, 8],
  [10, 5.5, 2, 9],
  [12, 6.5, 3, 10],
  [20, 10.5, 6, 15],
  [25, 13, 8, 18],
])('of %i values', (count, value, low, high) => {
  expect(median(upTo(count))).toEqual({ value, low, high });
});

test('five values or fewer leave it open', () => {
  for (const count of [1, 2, 5])
    expect(median(upTo(count))).toMatchObject({ low: -Infinity, high: Infinity });
  expect(median(upTo(5), { level: 0.9 })).toEqual({ value: 3, low: 1, high: 5 });
});

test('the order does not matter, the bounds hold the median, and turn with the sign', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 1, maxLength: 60 }), (values) => {
      const { value, low, high } = median(values);
      expect(median(values.toReversed())).toEqual({ value, low, high });
      expect(low).toBeLessThanOrEqual(value);
      expect(high).toBeGreaterThanOrEqual(value);
      const turned = median(values.map((one) => 100 - one));
      expect([turned.low, turned.value, turned.high]).toEqual([100 - high, 100 - value, 100 - low]);
    }),
    { seed: 20261125, numRuns: 200 },
  );
});

test('as often as promised the bounds hold the true median', () => {
  // 1000 sets of 15 draws from 0 to 1: rank 4 and 12 hold a half with the chance 0.9648 (the binomial sum by hand: 1 − 2 · 576/32768).
  let state = 7;
  const draw = () => (state = (state * 48271) % 2147483647) / 2147483647;
  const held = upTo(1000).filter(() => {
    const { low, high } = median(upTo(15).map(draw));
    return low <= 0.5 && high >= 0.5;
  });
  expect(Math.abs(held.length / 1000 - 0.9648)).toBeLessThan(0.02);
});

test('of thousands of values the ranks are those of the exact binomial sum', () => {
  for (const count of [999, 1000, 1001, 1140, 5000]) {
    let [rank, ways, fewer] = [0, 1n, 1n];
    // 0.025 of all ways, in whole numbers.
    while (fewer * 40n <= 2n ** BigInt(count)) {
      rank += 1;
      ways = (ways * BigInt(count - rank + 1)) / BigInt(rank);
      fewer += ways;
    }
    expect(median(upTo(count))).toEqual({ value: (count + 1) / 2, low: rank, high: count - rank + 1 });
  }
});

test('refused: none, and a level that is no share', () => {
  expect(() => median([])).toThrow(RangeError);
  expect(() => median([1], { level: 95 })).toThrow(RangeError);
});

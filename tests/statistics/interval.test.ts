import { expect, test } from 'vitest';
import { interval } from '../../src/statistics/estimate.js';

test.each([
  [0, 0],
  [0, 5],
  [-3, Infinity],
])('(%d, %d] is valid', (after, by) => {
  expect(interval(after, by)).toEqual({ after, by });
});

test.each([
  [2, 1],
  [Number.NaN, 1],
  [1, Number.NaN],
  [Infinity, Infinity],
  [-Infinity, 3],
])('(%d, %d] is refused, with both ends named', (after, by) => {
  expect(() => interval(after, by)).toThrow(RangeError);
  expect(() => interval(after, by)).toThrow(`(${after}, ${by}]`);
});

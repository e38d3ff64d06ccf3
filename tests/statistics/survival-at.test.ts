import { describe, expect, test } from 'vitest';
import { survivalAt } from '../../src/statistics/survival-at.js';

const support = [
  { after: 2, by: 4, mass: 0.25 },
  { after: 5, by: 5, mass: 0.25 },
  { after: 5, by: 8, mass: 0.25 },
  { after: 9, by: Infinity, mass: 0.25 },
];

describe('reading the curve', () => {
  test.each([
    ['before anything', 0, 1, 1],
    ['at the open end of a box', 2, 1, 1],
    ['inside a box: not defined', 3, 0.75, 1],
    ['at its closed end', 4, 0.75, 0.75],
    ['on the level', 4.5, 0.75, 0.75],
    ['at an exact time, where the next box starts', 5, 0.5, 0.5],
    ['just past it', 5.001, 0.25, 0.5],
    ['at the start of the last box', 9, 0.25, 0.25],
    ['in the last box: it may have ended', 1000, 0, 0.25],
    ['at the end of time', Infinity, 0, 0],
  ])('%s', (_, time, low, high) => {
    expect(survivalAt(support, time)).toEqual({ low, high });
  });

  test('no time is refused', () => {
    expect(() => survivalAt(support, Number.NaN)).toThrow(RangeError);
  });
});

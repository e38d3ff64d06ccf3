import { expect, test } from 'vitest';
import { turnbullIntervals } from '../../src/statistics/turnbull-intervals.js';
import { interval } from '../../src/statistics/estimate.js';

const boxesOf = (...ends: [number, number][]): [number, number][] =>
  turnbullIntervals(ends.map(([after, by]) => interval(after, by))).boxes.map(({ after, by }) => [after, by]);

test('where two overlap, and only there', () => {
  expect(boxesOf([0, 2], [1, 3], [2, 4])).toEqual([
    [1, 2],
    [2, 3],
  ]);
});

test('an end and a start at the same time do not meet: 2 is in (1, 2] and not in (2, 3]', () => {
  expect(boxesOf([1, 2], [2, 3])).toEqual([
    [1, 2],
    [2, 3],
  ]);
});

test('an exact time meets what ends on it, not what starts after it', () => {
  expect(boxesOf([1, 2], [2, 2])).toEqual([[2, 2]]);
  expect(boxesOf([2, 2], [2, Infinity])).toEqual([
    [2, 2],
    [2, Infinity],
  ]);
  expect(boxesOf([2, 2], [2, 3])).toEqual([
    [2, 2],
    [2, 3],
  ]);
});

test('only cut-off times meet past the last of them', () => {
  expect(boxesOf([1, Infinity], [5, Infinity], [3, Infinity])).toEqual([[5, Infinity]]);
});

test('which boxes each covers, like ones counted together', () => {
  const given = [interval(0, 4), interval(0, 1), interval(2, 4), interval(0, 4), interval(1, 3)];
  // Ends in order: (0 (0 (0 1] (1 (2 3] 4] 4] 4]. Boxes: (0, 1] and (2, 3].
  const { boxes, spans } = turnbullIntervals(given);
  expect(boxes).toEqual([
    { after: 0, by: 1 },
    { after: 2, by: 3 },
  ]);
  expect(spans).toEqual([
    { first: 0, end: 1, count: 1 },
    { first: 0, end: 2, count: 2 },
    { first: 1, end: 2, count: 2 },
  ]);
});

test('what is no interval is refused', () => {
  expect(() => turnbullIntervals([{ after: 3, by: 2 }])).toThrow(RangeError);
});

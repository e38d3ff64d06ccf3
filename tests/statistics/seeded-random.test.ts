import { expect, test } from 'vitest';
import { seededRandom, xoshiro } from '../../src/statistics/seeded-random.js';

const taken = (next: () => number, count: number): number[] => Array.from({ length: count }, next);

// Out of the published C code (Blackman and Vigna), compiled and run. The first three words from 1, 2, 3, 4 also by hand:
// rotl(2 · 5, 7) · 9 = 11520; then word b is 2 ^ (3 ^ 1) = 0; then 1029, rotl(5145, 7) · 9 = 5927040.
test('the words of the published generator', () => {
  expect(taken(xoshiro([1, 2, 3, 4]), 10)).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
  ]);
  const next = xoshiro([0xdeadbeef, 0xffffffff, 0x80000000, 0x12345678]);
  taken(next, 1000);
  expect(taken(next, 4)).toEqual([2472696594, 1228143853, 780258810, 682042256]);
});

test('a seed settles the stream, whatever the machine', () => {
  const { below } = seededRandom(2026);
  expect(taken(() => below(2 ** 32), 6)).toEqual([
    1436751614, 742089593, 1736781944, 1312845263, 2711517162, 3597559494,
  ]);
});

// 60 000 draws, six faces: χ² with five degrees of freedom passes 20.5 once in a thousand, and the seed is fixed.
test('a die is fair', () => {
  const { below } = seededRandom(1);
  const faces = [0, 0, 0, 0, 0, 0];
  for (let k = 0; k < 60_000; k++) faces[below(6)]! += 1;
  expect(faces.reduce((sum, seen) => sum + (seen - 10_000) ** 2 / 10_000, 0)).toBeLessThan(20.5);
});

// Below 3 · 2³⁰ a remainder alone would give each number of the first third twice as often as the others.
test('large draws favour no part', () => {
  const { below } = seededRandom(5);
  const draws = taken(() => below(3 * 2 ** 30), 30_000);
  const firstThird = draws.filter((draw) => draw < 2 ** 30).length / draws.length;
  expect(Math.abs(firstThird - 1 / 3)).toBeLessThan(0.01);
});

test.each([-1, 0.5, 2 ** 32, Number.NaN])('seed %d is refused', (seed) => {
  expect(() => seededRandom(seed)).toThrow(RangeError);
});

test.each([0, -1, 1.5, 2 ** 33])('a draw below %d is refused', (below) => {
  expect(() => seededRandom(1).below(below)).toThrow(RangeError);
});

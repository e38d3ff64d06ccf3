import { expect, it } from 'vitest';
import { readingSd } from '../../src/reference/reading-sd.js';

it('is finest with a calliper and coarsest by eye, which worsens with the length', () => {
  expect([
    readingSd('calliper', 40),
    readingSd('ruler', 40),
    readingSd('tape', 40),
    readingSd(undefined, 40),
    readingSd('photo', 40),
    readingSd('eye', 40),
  ]).toEqual([1, 2, 2, 2, 3.5, 7]);
  expect(readingSd('eye', 80)).toBeCloseTo(9.6, 12);
});

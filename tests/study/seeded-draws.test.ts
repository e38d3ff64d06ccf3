import { expect, test } from 'vitest';
import { SeededDraws } from './seeded-draws.js';

// The generator's published start: all six seeds 12345.
test('chance begins as published', () => {
  const draws = new SeededDraws(12345);
  const first = [0.12701112, 0.31852757, 0.30918602, 0.82584686, 0.22162992];
  for (const expected of first) expect(draws.uniform()).toBeCloseTo(expected, 8);
});

// Of 20,000 draws the mean of a uniform has SD 0.002, of a standard normal 0.007, its SD 0.005; four of those are allowed.
test('draws are spread as they should be', () => {
  const draws = new SeededDraws(20261125);
  const uniform = Array.from({ length: 20_000 }, () => draws.uniform());
  const normal = Array.from({ length: 20_000 }, () => draws.normal(0, 1));
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  expect(Math.abs(mean(uniform) - 0.5)).toBeLessThan(0.008);
  expect(Math.abs(mean(normal))).toBeLessThan(0.028);
  expect(Math.abs(Math.sqrt(mean(normal.map((z) => z * z))) - 1)).toBeLessThan(0.02);
  expect(Math.min(...uniform)).toBeGreaterThan(0);
  expect(Math.max(...uniform)).toBeLessThan(1);
});

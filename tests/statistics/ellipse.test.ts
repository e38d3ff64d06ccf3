import { expect, test } from 'vitest';
import { ellipse, marginAdvance } from '../../src/statistics/ellipse.js';

// The true perimeters are complete elliptic integrals (scipy 1.17.1); the shortfall is Ramanujan's, not rounding.
test.each([
  [20, 10, 48.44224110273838, 1e-9],
  [14, 4, 30.50179068692498, 2e-7],
  [20, 0, 40, 5e-4],
])('the perimeter of %d by %d', (length, width, perimeter, relative) => {
  expect(Math.abs(ellipse(length, width).perimeter / perimeter - 1)).toBeLessThan(relative);
  expect(ellipse(width, length).perimeter).toBe(ellipse(length, width).perimeter);
});

test('a circle is exact, a point is nothing', () => {
  expect(ellipse(6, 6).perimeter).toBeCloseTo(6 * Math.PI, 13);
  expect(ellipse(6, 6).area).toBeCloseTo(9 * Math.PI, 13);
  expect(ellipse(0, 0)).toEqual({ area: 0, perimeter: 0 });
});

// Radius 10 to 7: π(100 − 49) ÷ ½·2π(10 + 7) = 51/17 = 3.
test('a circle that shrinks by 3 has an edge moved by 3, one that grows by −3', () => {
  expect(marginAdvance(ellipse(20, 20), ellipse(14, 14))).toBeCloseTo(3, 13);
  expect(marginAdvance(ellipse(14, 14), ellipse(20, 20))).toBeCloseTo(-3, 13);
});

test('refused: less than nothing, and no outline at all', () => {
  expect(() => ellipse(-1, 2)).toThrow(RangeError);
  expect(() => ellipse(Number.NaN, 2)).toThrow(RangeError);
  expect(() => marginAdvance(ellipse(0, 0), ellipse(0, 0))).toThrow(RangeError);
});

import type { Outline } from './ellipse.js';

/**
 * How far the edge of a hole has moved inward, on average all round: area lost over the mean of both perimeters.
 *
 * Exact for a hole that keeps its shape about an inscribed circle, and for any that shrinks by an even strip; for an
 * ellipse a little off. A long narrow hole that has closed outright it makes out to have moved too far: 30 by 12 mm
 * gives 8.6 where the edges met after 6. Below 0 the hole has grown.
 *
 * Unit:    that of the perimeter, with areas in its square
 * Error:   RangeError if both outlines are nothing
 * Source:  T. H. Gilman (1990), linear healing
 * Checked: tests/statistics/ellipse.test.ts
 * @example marginAdvance({ area: 400, perimeter: 80 }, { area: 196, perimeter: 56 }) // → 3
 */
export function marginAdvance(before: Outline, after: Outline): number {
  const perimeter = (before.perimeter + after.perimeter) / 2;
  if (!(perimeter > 0)) throw new RangeError('neither outline has a perimeter: nothing can have moved');
  return (before.area - after.area) / perimeter;
}

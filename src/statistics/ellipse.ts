/** The area and the way round of a flat shape. */
type Outline = Readonly<{ area: number; perimeter: number }>;

/**
 * The ellipse that is so long and so wide.
 *
 * No finite formula gives the perimeter of an ellipse; Ramanujan's second comes close: short by a few parts in a
 * thousand million where one side is half the other, by 0.04 % where it is nothing.
 *
 * Shape:   both diameters, in any order → area and perimeter
 * Valid:   from 0
 * Source:  S. Ramanujan (1914), his second approximation
 * Checked: tests/statistics/ellipse.test.ts
 * @example ellipse(20, 20).area // → 100 * Math.PI
 */
export function ellipse(length: number, width: number): Outline {
  if (!(length >= 0 && width >= 0)) throw new RangeError(`an ellipse ${length} by ${width}: expected from 0`);
  const sum = (length + width) / 2;
  const flatness = sum === 0 ? 0 : ((length - width) / 2 / sum) ** 2;
  return {
    area: (Math.PI * length * width) / 4,
    perimeter: Math.PI * sum * (1 + (3 * flatness) / (10 + Math.sqrt(4 - 3 * flatness))),
  };
}

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

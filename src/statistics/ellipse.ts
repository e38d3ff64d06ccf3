/** The area and the way round of a flat shape. */
export interface Outline {
  readonly area: number;
  readonly perimeter: number;
}

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

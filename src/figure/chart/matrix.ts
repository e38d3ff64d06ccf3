/** A turn, a scale and a shift of the plane: x′ = a·x + c·y + e, y′ = b·x + d·y + f, in the order a canvas names them. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const identity: Matrix = [1, 0, 0, 1, 0, 0];

/** First the inner, then the outer. @example times([1, 0, 0, 1, 5, 0], [2, 0, 0, 2, 0, 0]) // → [2, 0, 0, 2, 5, 0] */
export function times(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

/** Where a point comes to lie. @example pointAt([1, 0, 0, 1, 5, 7], 1, 1) // → [6, 8] */
export function pointAt([a, b, c, d, e, f]: Matrix, x: number, y: number): readonly [number, number] {
  return [a * x + c * y + e, b * x + d * y + f];
}

/**
 * By how much it makes lengths longer and how far it turns, in degrees; throws where it skews, mirrors or stretches one way, for then
 * a circle or a letter would be none.
 */
export function scaleAndTurn([a, b, c, d]: Matrix): { readonly scale: number; readonly turnDegrees: number } {
  const isEven = Math.abs(a - d) < 1e-9 && Math.abs(b + c) < 1e-9;
  if (!isEven) throw new RangeError('a skewed or mirrored drawing is not recorded');
  return { scale: Math.hypot(a, b), turnDegrees: (Math.atan2(b, a) * 180) / Math.PI };
}

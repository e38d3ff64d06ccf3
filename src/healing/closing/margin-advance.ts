/** An ulcer's extent over all, mm. */
export interface Extent {
  readonly lengthMm: number;
  readonly widthMm: number;
}

/**
 * How fast the margin of an ulcer came in between two looks, each taken as an ellipse.
 *
 * Area lost over mean perimeter: unlike per cent of area, it does not make a small ulcer look faster than a large
 * one. It overstates a long narrow one that has all but closed.
 *
 * Unit:    mm a day; below 0 the margin went out
 * Valid:   days > 0; not both of no extent
 * Source:  perimeter by Ramanujan's second approximation
 * Checked: tests/healing/closing/margin-advance.test.ts
 * @example marginAdvance({ lengthMm: 20, widthMm: 20 }, { lengthMm: 14, widthMm: 14 }, 14) // → 3 / 14
 */
export function marginAdvance(before: Extent, now: Extent, days: number): number {
  return (area(before) - area(now)) / (((perimeter(before) + perimeter(now)) / 2) * days);
}

function area({ lengthMm, widthMm }: Extent): number {
  return (Math.PI * lengthMm * widthMm) / 4;
}

function perimeter({ lengthMm, widthMm }: Extent): number {
  const a = lengthMm / 2;
  const b = widthMm / 2;
  if (a + b === 0) return 0;
  const h = ((a - b) / (a + b)) ** 2;
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}

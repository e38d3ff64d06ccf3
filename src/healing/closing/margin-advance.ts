import { ellipse } from '../../statistics/ellipse.js';
import { marginAdvance as advanceOf } from '../../statistics/margin-advance.js';

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
 * Error:   RangeError if both are of no extent
 * Source:  src/statistics/margin-advance.ts
 * Checked: tests/healing/closing/margin-advance.test.ts
 * @example marginAdvance({ lengthMm: 20, widthMm: 20 }, { lengthMm: 14, widthMm: 14 }, 14) // → 3 / 14
 */
export function marginAdvance(before: Extent, now: Extent, days: number): number {
  return advanceOf(outline(before), outline(now)) / days;
}

function outline({ lengthMm, widthMm }: Extent) {
  return ellipse(lengthMm, widthMm);
}

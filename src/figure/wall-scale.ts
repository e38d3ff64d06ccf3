import { largest } from '../statistics/estimate.js';

/** From mm below the coronet to pixels down the drawing. */
export interface WallScale {
  readonly pxPerMm: number;
  /** Where the coronet lies. */
  readonly coronetY: number;
  /** Where the longest wall ends. */
  readonly groundY: number;
  readonly y: (mm: number) => number;
}

/** The usual scale; the same for every strip of a book, so that strips compare. */
const usualPxPerMm = 2.6;
/** A wall too long for the page is drawn smaller, one too short to hold a number larger. */
const tallestPx = 260;
const shortestPx = 60;

/** @example wallScale([43, 60], 40).y(10) // → 66 */
export function wallScale(lengthsMm: readonly number[], coronetY: number): WallScale {
  const longest = largest(lengthsMm, 1);
  const pxPerMm = Math.max(Math.min(usualPxPerMm, tallestPx / longest), shortestPx / longest);
  return {
    pxPerMm,
    coronetY,
    groundY: coronetY + longest * pxPerMm,
    y: (mm) => coronetY + Math.max(0, mm) * pxPerMm,
  };
}

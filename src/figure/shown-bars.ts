import type { WallStripInput } from './drawn-wall.js';

/** Columns that fit across a sheet of paper at natural size. */
const mostColumns = 11;

/**
 * Which visits a strip draws: all while they fit, else the first and the latest ones.
 * Of 14 with nothing expected: the first, the last 9, and 4 left out.
 */
export function shownBars({ bars, expected, out, noForecast }: WallStripInput) {
  const columns =
    mostColumns - expected.length - (out ? 1 : 0) - (noForecast && noForecast !== 'healed' ? 1 : 0);
  if (bars.length <= columns) return { first: bars, latest: [], leftOut: 0 };
  const latest = bars.slice(bars.length - (columns - 2));
  return { first: bars.slice(0, 1), latest, leftOut: bars.length - 1 - latest.length };
}

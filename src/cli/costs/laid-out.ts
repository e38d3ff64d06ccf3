import { largest } from '../../statistics/extremes.js';

/**
 * Rows under each other, two spaces between: the first columns to the left, the others to the right.
 *
 * @example laidOut([['animal', 'visits'], ['2086', '5']], 1) // → ['animal  visits', '2086         5']
 */
export function laidOut(rows: readonly (readonly string[])[], toTheLeft: number): string[] {
  const widths = (rows[0] ?? []).map((_, at) => largest(rows.map((row) => row[at]!.length)));
  return rows.map((row) =>
    row
      .map((cell, at) => (at < toTheLeft ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!)))
      .join('  ')
      .trimEnd(),
  );
}

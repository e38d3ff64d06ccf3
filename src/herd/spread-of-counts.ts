/** What one case took, over many cases: never without how many they are. */
export interface SpreadOfCounts {
  readonly cases: number;
  readonly mean: number;
  readonly median: number;
  readonly most: number;
}

/**
 * Mean, median and most of some counts; undefined for none. Of an even number the median is the middle of the two.
 *
 * Checked: tests/herd/work-per-case.test.ts
 * @example spreadOfCounts([1, 2, 2, 7]) // → { cases: 4, mean: 3, median: 2, most: 7 }
 */
export function spreadOfCounts(counts: readonly number[]): SpreadOfCounts | undefined {
  const sorted = counts.toSorted((a, b) => a - b);
  const most = sorted.at(-1);
  if (most === undefined) return undefined;
  const upper = sorted[Math.floor(sorted.length / 2)]!;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1]!;
  const mean = sorted.reduce((sum, count) => sum + count, 0) / sorted.length;
  return { cases: sorted.length, mean, median: (lower + upper) / 2, most };
}

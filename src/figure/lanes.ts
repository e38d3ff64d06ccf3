/**
 * Lanes for things that would cover each other on one line: each takes the first lane where it is clear.
 * @example lanes([{ from: 0, to: 10 }, { from: 5, to: 15 }, { from: 12, to: 20 }]) // → [0, 1, 0]
 */
export function lanes(spans: readonly { readonly from: number; readonly to: number }[]): number[] {
  const order = spans.map((_, at) => at).sort((a, b) => spans[a]!.from - spans[b]!.from || a - b);
  const ends: number[] = [];
  const found: number[] = spans.map(() => 0);
  for (const at of order) {
    const { from, to } = spans[at]!;
    const free = ends.findIndex((end) => end <= from);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = to;
    found[at] = lane;
  }
  return found;
}

/**
 * Places along a line for marks that would cover each other at their own: each moved as little as need be, in order,
 * `apartPx` from the next, none before `left` or beyond `right`. Undefined where there are too many for the line.
 * @example sideBySide([10, 12, 50], 10, 0, 60) // → [6, 16, 50]
 */
export function sideBySide(
  places: readonly number[],
  apartPx: number,
  left: number,
  right: number,
): number[] | undefined {
  if ((places.length - 1) * apartPx > right - left) return undefined;
  const order = places.map((_, at) => at).sort((a, b) => places[a]! - places[b]! || a - b);
  const clumps: { sum: number; count: number }[] = [];
  const startOf = ({ sum, count }: { sum: number; count: number }) => {
    const long = (count - 1) * apartPx;
    return Math.min(Math.max(left, sum / count - long / 2), right - long);
  };
  for (const at of order) {
    clumps.push({ sum: places[at]!, count: 1 });
    for (let last = clumps.length - 1; last > 0; last--) {
      const [before, after] = [clumps[last - 1]!, clumps[last]!];
      if (startOf(before) + before.count * apartPx <= startOf(after)) break;
      clumps.splice(last - 1, 2, { sum: before.sum + after.sum, count: before.count + after.count });
    }
  }
  const found = places.slice();
  let next = 0;
  for (const clump of clumps)
    for (let of = 0; of < clump.count; of++) found[order[next++]!] = startOf(clump) + of * apartPx;
  return found;
}

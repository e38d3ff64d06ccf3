/** The stretch that was put in and the one that was cut out: what is left of both texts once their common ends are off. */
export function difference(before: string, after: string): { put: string; cut: string } {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start += 1;
  let end = 0;
  while (end < before.length - start && before.at(-1 - end) === after.at(-1 - end)) end += 1;
  return { put: after.slice(start, after.length - end), cut: before.slice(start, before.length - end) };
}

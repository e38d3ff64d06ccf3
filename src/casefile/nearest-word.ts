/**
 * The word of a list that was most likely meant, or undefined where none is near.
 *
 * Near: the same letters in other capitals or with other joins; or about a third of its letters wrong at most. Of two
 * equally near the one with the same first letter.
 *
 * @example nearestWord('Outer', ['inner', 'outer']) // → 'outer'
 * @example nearestWord('recheque', ['recheck', 'routine']) // → 'recheck'
 */
export function nearestWord(written: string, words: readonly string[]): string | undefined {
  const bare = bareLetters(written);
  const same = words.find((word) => bareLetters(word) === bare);
  if (same !== undefined) return same;
  if (bare.length > 40) return undefined;
  let best: { readonly word: string; readonly off: number } | undefined;
  for (const word of words) {
    const letters = bareLetters(word);
    const distance = editDistance(bare, letters);
    const near = distance <= Math.ceil(Math.max(bare.length, letters.length) / 3);
    if (!near || distance >= Math.min(bare.length, letters.length)) continue;
    const off = distance + (bare[0] === letters[0] ? 0 : 0.5);
    if (off < (best?.off ?? Infinity)) best = { word, off };
  }
  return best?.word;
}

function bareLetters(word: string): string {
  return word.toLowerCase().replaceAll(/[\s_-]+/g, '');
}

/** Letters put in, left out, changed, or two neighbours swapped: each counts one. */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let row = 1; row <= a.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const changed = (last[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      let cost = Math.min(changed, (last[column] ?? 0) + 1, (now[column - 1] ?? 0) + 1);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, (beforeLast[column - 2] ?? 0) + 1);
      }
      now.push(cost);
    }
    beforeLast = last;
    last = now;
  }
  return last[b.length] ?? 0;
}

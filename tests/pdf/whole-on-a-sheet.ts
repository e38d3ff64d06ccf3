/** Letters and digits alone, small: breaks of lines, ligatures and marks set by the style differ between page and paper. */
export function lettersOf(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();
}

/**
 * Those parts that are not on one sheet from their first letter to their last. Parts are in the order they are read
 * in, and each is looked for after the one before, so a part that was split is not taken for another that reads alike.
 *
 * `next`: the start of what follows each part, where that has to be on the same sheet too.
 */
export function notWhole(
  parts: readonly string[],
  sheets: readonly string[],
  next: readonly string[] = [],
): string[] {
  const text = sheets.map(lettersOf).join('|');
  const split: string[] = [];
  let from = 0;
  for (const [index, part] of parts.entries()) {
    const letters = lettersOf(part);
    if (letters === '') continue;
    const at = text.indexOf(letters + lettersOf(next[index] ?? ''), from);
    if (at < 0) split.push(part.trim().replaceAll(/\s+/g, ' ').slice(0, 120));
    else from = at + letters.length;
  }
  return split;
}

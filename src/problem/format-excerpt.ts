import type { Place } from './problem.js';
import { readableText } from './readable-text.js';

/** Longest stretch of a line shown; about what fits beside the line number on a terminal. */
const widest = 96;
/** Characters kept before the trouble when a long line is cut. */
const before = 40;

/** The line of the file with carets under the trouble; a long line is cut round it with `…`. */
export function formatExcerpt(line: string, place: Place): string {
  const characters = [...line];
  const start = Math.min(place.column - 1, characters.length);
  const end = Math.max(start + 1, Math.min((place.endColumn ?? place.column + 1) - 1, characters.length));
  const cutFrom =
    characters.length <= widest ? 0 : Math.max(0, Math.min(start - before, characters.length - widest));
  const cutTo = Math.min(characters.length, cutFrom + widest);
  const head = cutFrom > 0 ? '…' : '';
  const tail = cutTo < characters.length ? '…' : '';
  const shown = head + readableText(characters.slice(cutFrom, cutTo).join('')) + tail;
  const gutter = `${String(place.line).padStart(5)} | `;
  const indent = ' '.repeat(gutter.length + head.length + start - cutFrom);
  return `${gutter}${shown.trimEnd()}\n${indent}${'^'.repeat(Math.min(end, cutTo) - start || 1)}`;
}

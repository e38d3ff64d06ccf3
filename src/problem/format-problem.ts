import type { Problem, Place } from './problem.js';
import { readableText } from './readable-text.js';

/** Longest stretch of a line shown; about what fits beside the line number on a terminal. */
const widest = 96;
/** Characters kept before the trouble when a long line is cut. */
const before = 40;

/** The line of the file with carets under the trouble; a long line is cut round it with `…`. */
function formatExcerpt(line: string, place: Place): string {
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

/**
 * A problem as text: one line complete in itself, the line of the file with carets, and how to mend it.
 *
 * Nothing out of a file reaches the terminal raw. For machines the list of problems itself is the form.
 *
 * Checked: tests/problem/format-problem.test.ts
 */
export function formatProblem(problem: Problem): string {
  const { place } = problem;
  const where = place ? `${problem.file}:${place.line}:${place.column}` : problem.file;
  const lines = [readableText(`${where}: ${problem.severity} ${problem.id}: ${problem.message}`)];
  if (place && problem.excerpt !== undefined) lines.push(formatExcerpt(problem.excerpt, place));
  lines.push(`  mend: ${readableText(problem.mend)}`);
  return lines.join('\n');
}

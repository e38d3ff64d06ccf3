import { terminal } from './message.js';
import type { Problem, Place, Severity } from './problem.js';

/**
 * Characters that move a terminal's cursor, colour it, turn the writing direction or show nothing: C0 and C1 controls,
 * DEL, zero-width and direction marks, the byte order mark, half surrogates.
 */
const unreadable =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * Text from a file made safe for a terminal: each unreadable character becomes one `·`, a tab one `→`,
 * so that columns still hold.
 *
 * @example readableText('a\tb\u001b[31m') // → 'a→b·[31m'
 */
export function readableText(text: string): string {
  return text.replaceAll(unreadable, (character) => (character === '\t' ? '→' : '·'));
}

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
 * A problem as text: one line complete in itself, the line of the file with carets, and how to fix it.
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
  lines.push(terminal('problem.mend', { mend: readableText(problem.mend) }));
  return lines.join('\n');
}

const severities: readonly Severity[] = ['error', 'warning', 'note'];

/**
 * How much is wrong in one line.
 *
 * @example countLine([{ file: '1.md', severity: 'error' }], 37) // → '1 error in 1 of 37 files'
 * @example countLine([], 37) // → 'no problems in 37 files'
 */
export function countLine(problems: readonly Problem[], filesRead: number): string {
  if (problems.length === 0) return terminal('problem.none', { count: filesRead });
  const counts = severities
    .map((severity) => ({ severity, count: problems.filter((one) => one.severity === severity).length }))
    .filter(({ count }) => count > 0)
    .map(({ severity, count }) => terminal(`problem.${severity}`, { count }))
    .join(', ');
  const troubled = new Set(problems.map((problem) => problem.file)).size;
  return filesRead < troubled ? counts : terminal('problem.in-files', { counts, troubled, count: filesRead });
}

/** By file, then by place in it; a trouble with the whole file comes before those inside it. The same order on every machine. */
export function sortProblems(problems: readonly Problem[]): Problem[] {
  return [...problems].sort(
    (a, b) =>
      compare(a.file, b.file) ||
      (a.place?.line ?? 0) - (b.place?.line ?? 0) ||
      (a.place?.column ?? 0) - (b.place?.column ?? 0) ||
      compare(a.id, b.id) ||
      compare(a.message, b.message),
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

import { formatExcerpt } from './format-excerpt.js';
import type { Problem } from './problem.js';
import { readableText } from './readable-text.js';

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

import type { Problem, Severity } from './problem.js';

const severities: readonly Severity[] = ['error', 'warning', 'note'];

/**
 * How much is wrong in one line.
 *
 * @example countLine([{ file: '1.md', severity: 'error' }], 37) // → '1 error in 1 of 37 files'
 * @example countLine([], 37) // → 'no problems in 37 files'
 */
export function countLine(problems: readonly Problem[], filesRead: number): string {
  const files = `${filesRead} ${filesRead === 1 ? 'file' : 'files'}`;
  if (problems.length === 0) return `no problems in ${files}`;
  const counts = severities
    .map((severity) => counted(problems.filter((problem) => problem.severity === severity).length, severity))
    .filter((count) => count !== undefined);
  const troubled = new Set(problems.map((problem) => problem.file)).size;
  return filesRead < troubled ? counts.join(', ') : `${counts.join(', ')} in ${troubled} of ${files}`;
}

function counted(count: number, severity: Severity): string | undefined {
  return count === 0 ? undefined : `${count} ${severity}${count === 1 ? '' : 's'}`;
}

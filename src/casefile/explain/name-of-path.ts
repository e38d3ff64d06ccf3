import type { RecordPath } from '../../problem/problem.js';

/**
 * A path in the words of a message. Which visit and which entry of a list is left out: the line says it.
 *
 * @example nameOfPath(['visits', 2, 'found', 'a', 'top']) // → 'found.a.top'
 */
export function nameOfPath(path: RecordPath): string {
  const inner = path[0] === 'visits' && path.length > 2 ? path.slice(2) : path;
  const name = inner.filter((part) => typeof part === 'string').join('.');
  return typeof path.at(-1) === 'number' ? `an entry of ${name}` : name;
}

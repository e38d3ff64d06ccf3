import { isCollection, isScalar } from 'yaml';
import type { Wanted } from '../../casefile/wanted.js';
import type { RecordPath } from '../../problem/problem.js';
import type { FrontMatter } from './front-matter.js';
import { endOf, nodeAt, startOf } from './front-matter.js';
import type { Splice } from './splice.js';
import { inFlow } from './write-value.js';

/**
 * A written value replaced by another; nothing around it moves.
 *
 * Error: undefined where nothing is written at the path, or where a comment would be lost with what is replaced
 */
export function putValue(
  front: FrontMatter,
  path: RecordPath,
  value: unknown,
  wanted: Wanted | undefined,
): Splice | undefined {
  const node = nodeAt(front, path);
  if (!isScalar(node) && !isCollection(node)) return undefined;
  const [start, end] = [startOf(front, node), endOf(front, node)];
  const written = front.text.slice(start, end);
  const quotes = isScalar(node) && (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE');
  const commented = isScalar(node) ? /^[>|][^\n]*#/.test(written) : /(?:^|\s)#/.test(written);
  if (!quotes && commented) return undefined;
  const lines = written.endsWith('\n') ? front.eol : '';
  return { at: start, remove: end - start, insert: inFlow(value, wanted) + lines };
}

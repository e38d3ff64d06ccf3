import { isMap } from 'yaml';
import type { YAMLMap } from 'yaml';
import type { Wanted } from '../../casefile/wanted.js';
import type { RecordPath } from '../../problem/problem.js';
import type { FrontMatter } from './front-matter.js';
import { columnOf, endOf, handOf, keyOf, lineAfter, nodeAt, startOf } from './front-matter.js';
import type { Splice } from './splice.js';
import { afterKey, inFlow } from './write-value.js';

/**
 * A key and its value put into a group that is written: behind the key that comes before it in the case format, or
 * first. A name of the user's own choice comes last.
 *
 * Error: undefined where no group stands at the path, or the key is written already
 */
export function putKey(
  front: FrontMatter,
  path: RecordPath,
  key: string,
  value: unknown,
  { group, value: wanted }: { readonly group: Wanted | undefined; readonly value: Wanted | undefined },
): Splice | undefined {
  const map = nodeAt(front, path);
  if (!isMap(map) || map.items.some((pair) => keyOf(pair) === key)) return undefined;
  const order = group?.kind === 'group' ? [...group.keys.keys()] : undefined;
  const before = order
    ? map.items.findLast((pair) => order.indexOf(keyOf(pair)) < order.indexOf(key))
    : map.items.at(-1);
  if (map.flow === true) return inBraces(front, map, before, `${key}: ${inFlow(value, wanted)}`);
  const first = map.items[0];
  if (!first) return undefined;
  const column = columnOf(front, first.key);
  const hand = handOf(front, map);
  const written = `${key}:${afterKey(value, wanted, column, hand)}${hand.eol}`;
  const margin = ' '.repeat(column);
  return before
    ? { at: lineAfter(front, before, column), remove: 0, insert: margin + written }
    : { at: startOf(front, first.key), remove: 0, insert: written + margin };
}

function inBraces(
  front: FrontMatter,
  map: YAMLMap,
  before: YAMLMap['items'][number] | undefined,
  entry: string,
): Splice {
  if (before) return { at: endOf(front, before), remove: 0, insert: `, ${entry}` };
  const first = map.items[0];
  if (first) return { at: startOf(front, first.key), remove: 0, insert: `${entry}, ` };
  const at = startOf(front, map) + 1;
  return { at, remove: 0, insert: ` ${entry}${front.text[at] === ' ' ? '' : ' '}` };
}

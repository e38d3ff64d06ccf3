import { isMap, isSeq } from 'yaml';
import type { YAMLSeq } from 'yaml';
import type { Wanted } from '../../casefile/wanted.js';
import type { RecordPath } from '../../problem/problem.js';
import type { FrontMatter } from './front-matter.js';
import { columnOf, endOf, handOf, lineAfter, nodeAt, startOf } from './front-matter.js';
import type { Splice } from './splice.js';
import { asEntry, inBlock, inFlow, isGroup } from './write-value.js';

/**
 * An entry put into a list that is written, before the one at `index`, or last.
 *
 * The list keeps its form, block or flow. Only an empty `[]` is replaced, by lines of its own, where the list is to
 * hold groups.
 *
 * Error: undefined where no list stands at the path
 */
export function putEntry(
  front: FrontMatter,
  path: RecordPath,
  index: number,
  value: unknown,
  wanted: Wanted | undefined,
): Splice | undefined {
  const list = nodeAt(front, path);
  if (!isSeq(list)) return undefined;
  if (list.flow !== true) return inLines(front, list, index, value, wanted);
  return list.items.length > 0 || !isGroup(value)
    ? inBrackets(front, list, index, inFlow(value, wanted))
    : (firstLines(front, path, list, value, wanted) ?? inBrackets(front, list, index, inFlow(value, wanted)));
}

function inLines(
  front: FrontMatter,
  list: YAMLSeq,
  index: number,
  value: unknown,
  wanted: Wanted | undefined,
): Splice {
  const dash = columnOf(front, list);
  const before = list.items[index - 1];
  const beside = before ?? list.items[0];
  const column = isMap(beside) && beside.flow !== true ? columnOf(front, beside) : dash + 2;
  const gap = ' '.repeat(Math.max(1, column - dash - 1));
  const hand = handOf(front, list);
  const inner = dash + 1 + gap.length;
  const like = isMap(beside) && isGroup(value) ? beside.flow === true : undefined;
  const written =
    like === undefined
      ? asEntry(value, wanted, inner, hand)
      : like
        ? inFlow(value, wanted)
        : inBlock(value as Readonly<Record<string, unknown>>, wanted, inner, hand);
  const entry = `${' '.repeat(dash)}-${gap}${written}${hand.eol}`;
  const start = startOf(front, list);
  const at = before ? lineAfter(front, before, dash) : front.text.lastIndexOf('\n', start - 1) + 1;
  return { at, remove: 0, insert: entry };
}

function inBrackets(front: FrontMatter, list: YAMLSeq, index: number, entry: string): Splice {
  const next = list.items[index];
  if (next !== undefined) return { at: startOf(front, next), remove: 0, insert: `${entry}, ` };
  const last = list.items.at(-1);
  if (last !== undefined) return { at: endOf(front, last), remove: 0, insert: `, ${entry}` };
  return { at: startOf(front, list) + 1, remove: 0, insert: entry };
}

/** `key: []` becomes `key:` with the entry below it; a comment behind the brackets stays there. */
function firstLines(
  front: FrontMatter,
  path: RecordPath,
  list: YAMLSeq,
  value: unknown,
  wanted: Wanted | undefined,
): Splice | undefined {
  const parent = nodeAt(front, path.slice(0, -1));
  const [start, end] = [startOf(front, list), endOf(front, list)];
  const key =
    isMap(parent) && parent.flow !== true ? parent.items.find((p) => p.value === list)?.key : undefined;
  const rest = /^[ \t]*\r?\n/.exec(front.text.slice(end));
  if (key === undefined || !rest || front.text.slice(start, end).replaceAll(/\s/g, '') !== '[]')
    return undefined;
  const hand = handOf(front);
  const dash = columnOf(front, key) + hand.step;
  const entry = asEntry(value, wanted, dash + 2, hand);
  return { at: start, remove: end - start, insert: `${hand.eol}${' '.repeat(dash)}- ${entry}` };
}

import type { z } from 'zod';
import { stepInto } from '../casefile/explain/explain-key.js';
import { isGroup, type Wanted, wantedBy } from '../casefile/wanted.js';
import { keyOf } from '../casefile/parse-yaml.js';
import type { Step } from '../record/record-step.js';
import {
  frontMatterOf,
  type EditableFrontMatter,
  endOf,
  nodeAt,
  startOf,
  columnOf,
  handOf,
  lineAfter,
} from './text/front-matter.js';
import { isCollection, isPair, isScalar, isMap, Lexer, type YAMLMap, isSeq, type YAMLSeq } from 'yaml';
import type { RecordPath } from '../problem/problem.js';
import { inFlow, afterKey, asEntry, inBlock } from './text/write-value.js';

/** The text with the steps taken, one after another, and what was cut and put in; undefined where one cannot be taken. */
export function stepsInText(
  text: string,
  steps: readonly Step[],
  schema: z.ZodType,
): { readonly text: string; readonly splices: readonly Splice[] } | undefined {
  const splices: Splice[] = [];
  let now = text;
  for (const step of steps) {
    const splice = spliceOf(now, step, wantedBy(schema));
    if (!splice) return undefined;
    splices.push(splice);
    now = spliced(now, splice);
  }
  return { text: now, splices };
}

function spliceOf(text: string, step: Step, root: Wanted): Splice | undefined {
  const front = frontMatterOf(text);
  const wanted = step.path.reduce<Wanted | undefined>(stepInto, root);
  if (!front) return undefined;
  switch (step.put) {
    case 'value':
      return putValue(front, step.path, step.value, wanted);
    case 'key':
      return putKey(front, step.path, step.key, step.value, {
        group: wanted,
        value: stepInto(wanted, step.key),
      });
    case 'entry': {
      const written = putEntry(front, step.path, step.index, step.value, stepInto(wanted, 0));
      if (written) return written;
      const group = step.path.slice(0, -1);
      return putKey(front, group, String(step.path.at(-1)), [step.value], {
        group: group.reduce<Wanted | undefined>(stepInto, root),
        value: wanted,
      });
    }
    case 'nothing':
      return takeOut(front, step.path);
  }
}

/**
 * What is written at a path taken out: lines of its own, or its part between brackets.
 *
 * Error: undefined where nothing is written there, where a list or group written in lines would be left empty, or where
 * a comment would be lost with it
 */
function takeOut(front: EditableFrontMatter, path: RecordPath): Splice | undefined {
  const parent = nodeAt(front, path.slice(0, -1));
  if (!isMap(parent) && !isSeq(parent)) return undefined;
  const items: readonly unknown[] = parent.items;
  const name = String(path.at(-1));
  const at = isSeq(parent) ? Number(name) : parent.items.findIndex((pair) => keyOf(pair) === name);
  const [before, item, next] = [items[at - 1], items[at], items[at + 1]];
  if (item === undefined || (parent.flow !== true && items.length === 1)) return undefined;
  const begin = (one: unknown): number => startOf(front, isPair(one) ? one.key : one);
  const [from, to] =
    parent.flow === true
      ? before
        ? [endOf(front, before), endOf(front, item)]
        : [begin(item), next ? begin(next) : endOf(front, item)]
      : isMap(parent) && !before
        ? [begin(item), begin(next)]
        : [
            front.text.lastIndexOf('\n', begin(item) - 1) + 1,
            lineAfter(front, item, columnOf(front, parent)),
          ];
  return holdsComment(front.text.slice(from, to)) ? undefined : { at: from, remove: to - from, insert: '' };
}

/** A text begins behind a control sign of the lexer's; what begins with `#` otherwise is a comment. */
function holdsComment(text: string): boolean {
  const tokens = [...new Lexer().lex(text)];
  return tokens.some((token, at) => token.startsWith('#') && tokens[at - 1] !== '\u001f');
}

/**
 * A written value replaced by another; nothing around it moves.
 *
 * Error: undefined where nothing is written at the path, or where a comment would be lost with what is replaced
 */
function putValue(
  front: EditableFrontMatter,
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

/**
 * A key and its value put into a group that is written: behind the key that comes before it in the case format, or
 * first. A name of the user's own choice comes last.
 *
 * Error: undefined where no group stands at the path, or the key is written already
 */
function putKey(
  front: EditableFrontMatter,
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
  front: EditableFrontMatter,
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

/**
 * An entry put into a list that is written, before the one at `index`, or last.
 *
 * The list keeps its form, block or flow. Only an empty `[]` is replaced, by lines of its own, where the list is to
 * hold groups.
 *
 * Error: undefined where no list stands at the path
 */
function putEntry(
  front: EditableFrontMatter,
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
  front: EditableFrontMatter,
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

function inBrackets(front: EditableFrontMatter, list: YAMLSeq, index: number, entry: string): Splice {
  const next = list.items[index];
  if (next !== undefined) return { at: startOf(front, next), remove: 0, insert: `${entry}, ` };
  const last = list.items.at(-1);
  if (last !== undefined) return { at: endOf(front, last), remove: 0, insert: `, ${entry}` };
  return { at: startOf(front, list) + 1, remove: 0, insert: entry };
}

/** `key: []` becomes `key:` with the entry below it; a comment behind the brackets stays there. */
function firstLines(
  front: EditableFrontMatter,
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

/** A change to a text: at an offset, so many characters out, a text in. */
interface Splice {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

function spliced(text: string, { at, remove, insert }: Splice): string {
  return text.slice(0, at) + insert + text.slice(at + remove);
}

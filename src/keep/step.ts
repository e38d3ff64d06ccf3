import type { z } from 'zod';
import {
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  Lexer,
  type Node,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { stepInto } from '../casefile/explain/explain-key.js';
import { keyOf, parseForPlaces } from '../casefile/parse-yaml.js';
import { sourceText } from '../casefile/source-text.js';
import { splitFrontMatter } from '../casefile/split-front-matter.js';
import { isGroup, type Wanted, wantedBy } from '../casefile/wanted.js';
import type { RecordPath } from '../problem/problem.js';
import type { Step } from '../record/record-step.js';
import { inFlow, afterKey, asEntry, type Hand, inBlock } from './text/write-value.js';

/** A case file's text and the nodes of its front matter; their ranges count from the start of the text. */
interface FrontMatter {
  readonly text: string;
  readonly root: unknown;
  readonly eol: string;
}

/** The text with the steps taken, one after another; undefined where one cannot be taken. */
export function stepsInText(text: string, steps: readonly Step[], schema: z.ZodType): string | undefined {
  let now: string | undefined = text;
  for (const step of steps) now = now === undefined ? now : stepInText(now, step, wantedBy(schema));
  return now;
}

function stepInText(text: string, step: Step, whole: Wanted): string | undefined {
  const front = frontMatterOf(text);
  if (!front) return undefined;
  const { path } = step;
  const wantedAt = (at: RecordPath): Wanted | undefined => at.reduce<Wanted | undefined>(stepInto, whole);
  const node = nodeAt(front.root, path);
  const wanted = wantedAt(path);
  switch (step.put) {
    case 'value':
      return putValue(front, node, inFlow(step.value, wanted));
    case 'key':
      return putKey(front, node, step.key, step.value, wanted);
    case 'entry': {
      if (isSeq(node)) return putEntry(front, path, node, step.index, step.value, stepInto(wanted, 0));
      const group = path.slice(0, -1);
      const key = String(path.at(-1));
      return putKey(front, nodeAt(front.root, group), key, [step.value], wantedAt(group));
    }
    case 'nothing':
      return takeOut(front, path);
  }
}

/** Undefined for a text without front matter that can be parsed. */
function frontMatterOf(text: string): FrontMatter | undefined {
  const split = splitFrontMatter(sourceText(text));
  if (split.outcome !== 'split' || !text.startsWith(split.yaml, split.offset)) return undefined;
  // With the `---` before it, which begins a document of YAML too.
  const root = parseForPlaces(text.slice(0, split.offset + split.yaml.length))?.contents;
  return { text, root, eol: /\r\n/.test(text.slice(0, 200)) ? '\r\n' : '\n' };
}

/** The node a path leads to; undefined where nothing is written there. */
function nodeAt(root: unknown, path: RecordPath): unknown {
  let node = root;
  for (const part of path)
    if (isSeq(node)) node = node.items[Number(part)];
    else if (isMap(node)) node = node.items.find((pair) => keyOf(pair) === String(part))?.value;
    else return undefined;
  return node;
}

/** Where a node, or the key of a pair, begins in the text. */
function startOf(node: unknown): number {
  return ((isPair(node) ? node.key : node) as Node).range?.[0] ?? 0;
}

/** Where the last character of what a node or a pair holds has been: comments and line ends behind it are not in it. */
function endOf(node: unknown): number {
  if (isPair(node)) return endOf(node.value ?? node.key);
  const last = (isMap(node) || isSeq(node)) && node.flow !== true ? node.items.at(-1) : undefined;
  return last ? endOf(last) : ((node as Node).range?.[1] ?? 0);
}

/** How far in the first character of a node is on its line. */
function columnOf({ text }: FrontMatter, node: unknown): number {
  const start = startOf(node);
  return start - (text.lastIndexOf('\n', start - 1) + 1);
}

/**
 * The start of the line after what a node holds. Comments that are further in than `margin` belong to it and are
 * passed over; blank lines and comments further out are not.
 */
function lineAfter({ text }: FrontMatter, node: unknown, margin: number): number {
  const lineEnd = (from: number): number => {
    const end = text.indexOf('\n', from);
    return end === -1 ? text.length : end + 1;
  };
  const end = endOf(node);
  let at = text[end - 1] === '\n' ? end : lineEnd(end);
  for (let seek = at; ;) {
    const line = text.slice(seek, lineEnd(seek));
    const [, blanks] = /^( *)#/.exec(line) ?? [];
    if (blanks !== undefined && blanks.length > margin) at = seek + line.length;
    else if (line.trim() !== '') return at;
    if (line === '') return at;
    seek += line.length;
  }
}

/** How this file is written, seen at a list or a group: the step is that of the first group in a group found there. */
function handOf(front: FrontMatter, near?: YAMLMap | YAMLSeq): Hand {
  return { eol: front.eol, step: stepIn(front, near) ?? stepIn(front, front.root) ?? 2 };
}

function stepIn(front: FrontMatter, node: unknown): number | undefined {
  if (isSeq(node)) return node.items.map((item) => stepIn(front, item)).find((step) => step !== undefined);
  if (!isMap(node) || node.flow === true) return undefined;
  for (const { key, value } of node.items) {
    if (isMap(value) && value.flow !== true && value.items[0])
      return columnOf(front, value.items[0]) - columnOf(front, key);
    const inner = stepIn(front, value);
    if (inner !== undefined) return inner;
  }
  return undefined;
}

/** A text inserted at an offset, replacing the text up to another. */
function put({ text }: FrontMatter, at: number, insert: string, upTo = at): string {
  return text.slice(0, at) + insert + text.slice(upTo);
}

/**
 * What is written at a path taken out: lines of its own, or its part between brackets.
 *
 * Error: undefined where nothing is written there, where a list or group written in lines would be left empty, or where
 * a comment would be lost with it
 */
function takeOut(front: FrontMatter, path: RecordPath): string | undefined {
  const parent = nodeAt(front.root, path.slice(0, -1));
  if (!isMap(parent) && !isSeq(parent)) return undefined;
  const items: readonly unknown[] = parent.items;
  const name = String(path.at(-1));
  const at = isSeq(parent) ? Number(name) : parent.items.findIndex((pair) => keyOf(pair) === name);
  const [before, item, next] = [items[at - 1], items[at], items[at + 1]];
  if (item === undefined || (parent.flow !== true && items.length === 1)) return undefined;
  let [from, to] = [startOf(item), endOf(item)];
  if (parent.flow === true && before) from = endOf(before);
  else if (parent.flow === true) to = next ? startOf(next) : to;
  else if (isMap(parent) && !before) to = startOf(next);
  else
    [from, to] = [
      front.text.lastIndexOf('\n', from - 1) + 1,
      lineAfter(front, item, columnOf(front, parent)),
    ];
  return holdsComment(front.text.slice(from, to)) ? undefined : put(front, from, '', to);
}

/** A text begins behind a control sign of the lexer's; what begins with `#` otherwise is a comment. */
function holdsComment(text: string): boolean {
  const tokens = [...new Lexer().lex(text)];
  return tokens.some((token, at) => token.startsWith('#') && tokens[at - 1] !== '\u001f');
}

/**
 * A written value replaced by another; nothing around it moves.
 *
 * Error: undefined where nothing is written, or where a comment would be lost with what is replaced
 */
function putValue(front: FrontMatter, node: unknown, value: string): string | undefined {
  if (!isScalar(node) && !isCollection(node)) return undefined;
  const [start, end] = [startOf(node), endOf(node)];
  const written = front.text.slice(start, end);
  const quotes = isScalar(node) && (node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE');
  const commented = isScalar(node) ? /^[>|][^\n]*#/.test(written) : /(?:^|\s)#/.test(written);
  if (!quotes && commented) return undefined;
  return put(front, start, value + (written.endsWith('\n') ? front.eol : ''), end);
}

/**
 * A key and its value put into a group that is written: behind the key that comes before it in the case format, or
 * first. A name of the user's own choice comes last.
 *
 * Error: undefined where no group is written, or the key is written already
 */
function putKey(
  front: FrontMatter,
  map: unknown,
  key: string,
  value: unknown,
  group: Wanted | undefined,
): string | undefined {
  if (!isMap(map) || map.items.some((pair) => keyOf(pair) === key)) return undefined;
  const wanted = stepInto(group, key);
  const order = group?.kind === 'group' ? [...group.keys.keys()] : undefined;
  const [first] = map.items;
  const before = order
    ? map.items.findLast((pair) => order.indexOf(keyOf(pair)) < order.indexOf(key))
    : map.items.at(-1);
  if (map.flow === true) {
    const entry = `${key}: ${inFlow(value, wanted)}`;
    if (before) return put(front, endOf(before), `, ${entry}`);
    if (first) return put(front, startOf(first), `${entry}, `);
    const at = startOf(map) + 1;
    return put(front, at, ` ${entry}${front.text[at] === ' ' ? '' : ' '}`);
  }
  if (!first) return undefined;
  const column = columnOf(front, first);
  const hand = handOf(front, map);
  const written = `${key}:${afterKey(value, wanted, column, hand)}${hand.eol}`;
  const margin = ' '.repeat(column);
  return before
    ? put(front, lineAfter(front, before, column), margin + written)
    : put(front, startOf(first), written + margin);
}

/**
 * An entry put into a list that is written, before the one at `index`, or last.
 *
 * The list keeps its form, block or flow. Only an empty `[]` is replaced, by lines of its own, where the list is to
 * hold groups.
 */
function putEntry(
  front: FrontMatter,
  path: RecordPath,
  list: YAMLSeq,
  index: number,
  value: unknown,
  wanted: Wanted | undefined,
): string {
  if (list.flow !== true) return putInLines(front, list, index, value, wanted);
  const begun = isGroup(value) ? firstLines(front, path, list, value, wanted) : undefined;
  if (begun !== undefined) return begun;
  const entry = inFlow(value, wanted);
  const [next, last] = [list.items[index], list.items.at(-1)];
  if (next !== undefined) return put(front, startOf(next), `${entry}, `);
  return last === undefined ? put(front, startOf(list) + 1, entry) : put(front, endOf(last), `, ${entry}`);
}

function putInLines(
  front: FrontMatter,
  list: YAMLSeq,
  index: number,
  value: unknown,
  wanted: Wanted | undefined,
): string {
  const dash = columnOf(front, list);
  const before = list.items[index - 1];
  const beside = before ?? list.items[0];
  const column = isMap(beside) && beside.flow !== true ? columnOf(front, beside) : dash + 2;
  const gap = ' '.repeat(Math.max(1, column - dash - 1));
  const hand = handOf(front, list);
  const inner = dash + 1 + gap.length;
  const asBeside = (group: Record<string, unknown>): string =>
    isMap(beside) && beside.flow === true ? inFlow(group, wanted) : inBlock(group, wanted, inner, hand);
  const written = isMap(beside) && isGroup(value) ? asBeside(value) : asEntry(value, wanted, inner, hand);
  const at = before ? lineAfter(front, before, dash) : front.text.lastIndexOf('\n', startOf(list) - 1) + 1;
  return put(front, at, `${' '.repeat(dash)}-${gap}${written}${hand.eol}`);
}

/** `key: []` becomes `key:` with the entry below it; a comment behind the brackets stays there. */
function firstLines(
  front: FrontMatter,
  path: RecordPath,
  list: YAMLSeq,
  value: unknown,
  wanted: Wanted | undefined,
): string | undefined {
  const parent = nodeAt(front.root, path.slice(0, -1));
  const [start, end] = [startOf(list), endOf(list)];
  const pair = isMap(parent) && parent.flow !== true ? parent.items.find((p) => p.value === list) : undefined;
  const isBare = front.text.slice(start, end).replaceAll(/\s/g, '') === '[]';
  if (!pair || !isBare || !/^[ \t]*\r?\n/.test(front.text.slice(end))) return undefined;
  const hand = handOf(front);
  const dash = columnOf(front, pair) + hand.step;
  const entry = asEntry(value, wanted, dash + 2, hand);
  return put(front, start, `${hand.eol}${' '.repeat(dash)}- ${entry}`, end);
}

import { isMap, isPair, isSeq, type Node, type Pair, type YAMLMap, type YAMLSeq } from 'yaml';
import { sourceText } from '../../casefile/source-text.js';
import { splitFrontMatter } from '../../casefile/split-front-matter.js';
import { keyOf, parseForPlaces } from '../../casefile/parse-yaml.js';
import type { RecordPath } from '../../problem/problem.js';
import type { Hand } from './write-value.js';

/** A case file's text and the nodes of its front matter; offsets in a node count from `offset` of the text. */
export interface EditableFrontMatter {
  readonly text: string;
  readonly offset: number;
  readonly root: Node | null | undefined;
  readonly eol: string;
}

/** Undefined for a text without front matter that can be parsed. */
export function frontMatterOf(text: string): EditableFrontMatter | undefined {
  const split = splitFrontMatter(sourceText(text));
  if (split.outcome !== 'split' || !text.startsWith(split.yaml, split.offset)) return undefined;
  const root = parseForPlaces(split.yaml)?.contents as Node | null | undefined;
  return { text, offset: split.offset, root, eol: /\r\n/.test(text.slice(0, 200)) ? '\r\n' : '\n' };
}

/** The node a path leads to; undefined where nothing is written there. */
export function nodeAt({ root }: EditableFrontMatter, path: RecordPath): Node | undefined {
  let node: unknown = root;
  for (const part of path) {
    if (isSeq(node)) node = node.items[Number(part)];
    else if (isMap(node)) node = pairOf(node, String(part))?.value;
    else return undefined;
  }
  return (node as Node | null | undefined) ?? undefined;
}

export function pairOf(map: YAMLMap, key: string): Pair | undefined {
  return map.items.find((pair) => keyOf(pair) === key);
}

/** Where a node begins in the text. */
export function startOf(front: EditableFrontMatter, node: unknown): number {
  return front.offset + ((node as Node).range?.[0] ?? 0);
}

/** Where the last character of what a node or a pair holds has been: comments and line ends behind it are not in it. */
export function endOf(front: EditableFrontMatter, node: unknown): number {
  if (isPair(node)) return endOf(front, node.value ?? node.key);
  const last = (isMap(node) || isSeq(node)) && node.flow !== true ? node.items.at(-1) : undefined;
  return last ? endOf(front, last) : front.offset + ((node as Node).range?.[1] ?? 0);
}

/** How far in the first character of a node stands on its line. */
export function columnOf(front: EditableFrontMatter, node: unknown): number {
  const start = startOf(front, node);
  return start - (front.text.lastIndexOf('\n', start - 1) + 1);
}

/**
 * The start of the line after what a node holds. Comments that stand further in than `margin` belong to it and are
 * passed over; blank lines and comments further out are not.
 */
export function lineAfter(front: EditableFrontMatter, node: unknown, margin: number): number {
  const { text } = front;
  const end = endOf(front, node);
  let at = text[end - 1] === '\n' ? end : lineEnd(text, end);
  for (let seek = at; ;) {
    const line = text.slice(seek, lineEnd(text, seek));
    const [, blanks] = /^( *)#/.exec(line) ?? [];
    if (blanks !== undefined && blanks.length > margin) at = seek + line.length;
    else if (line.trim() !== '') return at;
    if (line === '') return at;
    seek += line.length;
  }
}

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end === -1 ? text.length : end + 1;
}

/** How this file is written, seen at a list or a group: the step is that of the first group in a group found there. */
export function handOf(front: EditableFrontMatter, near?: YAMLMap | YAMLSeq): Hand {
  return { eol: front.eol, step: (near && stepIn(front, near)) ?? stepIn(front, front.root) ?? 2 };
}

function stepIn(front: EditableFrontMatter, node: unknown): number | undefined {
  if (isSeq(node)) return node.items.map((item) => stepIn(front, item)).find((step) => step !== undefined);
  if (!isMap(node) || node.flow === true) return undefined;
  for (const { key, value } of node.items) {
    if (isMap(value) && value.flow !== true && value.items[0])
      return columnOf(front, value.items[0].key) - columnOf(front, key);
    const inner = stepIn(front, value);
    if (inner !== undefined) return inner;
  }
  return undefined;
}

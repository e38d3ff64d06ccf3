import { isCollection, isMap, isPair, isScalar, isSeq, parseDocument } from 'yaml';
import type { Document, Node, Pair, ParsedNode } from 'yaml';
import type { RecordPath } from '../problem/problem.js';

/** A stretch of the front matter, as offsets in it; `end` is the first character after. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** The way from a path in the record to its characters in the file. */
export interface YamlPlaces {
  /** The last key of the path (for a list index, its entry); the nearest parent's key where it is not written. */
  readonly key: (path: RecordPath) => Stretch;
  /** What the path holds; its key where that is nothing or runs over several lines. */
  readonly value: (path: RecordPath) => Stretch;
}

let last: { readonly yaml: string; readonly places: YamlPlaces } | undefined;

/**
 * The slow second reading: a few milliseconds a file, so only for a file with trouble, or when a place is asked for.
 *
 * The last one is kept and no more: parsed documents of some thousand files would fill the memory.
 */
export function yamlPlaces(yaml: string): YamlPlaces {
  if (last?.yaml !== yaml) last = { yaml, places: placesIn(yaml) };
  return last.places;
}

function placesIn(yaml: string): YamlPlaces {
  const document = parseForPlaces(yaml);
  const top: Stretch = { start: 0, end: 0 };
  const key = (path: RecordPath): Stretch => walk(document, path, top).key;
  return {
    key,
    value: (path) => {
      const { node, key: keyStretch } = walk(document, path, top);
      const range = node?.range;
      if (!range || range[0] >= range[1]) return keyStretch;
      const flow = !isCollection(node) || node.flow === true;
      return flow ? { start: range[0], end: range[1] } : keyStretch;
    },
  };
}

/** Without schema, merging or checks of keys: nothing is converted and no alias is followed. A hopeless text gives nothing. */
export function parseForPlaces(yaml: string): Document.Parsed | undefined {
  try {
    return parseDocument(yaml, {
      schema: 'failsafe',
      uniqueKeys: false,
      strict: false,
      prettyErrors: false,
      logLevel: 'silent',
    });
  } catch {
    return undefined;
  }
}

interface Step {
  readonly node: Node | null | undefined;
  readonly key: Stretch;
}

function walk(document: Document.Parsed | undefined, path: RecordPath, top: Stretch): Step {
  let step: Step = { node: document?.contents, key: firstKey(document?.contents) ?? top };
  for (const part of path) {
    const next = into(step.node, part);
    if (!next) return { ...step, node: undefined };
    step = next;
  }
  return step;
}

/** Where the whole record is meant, its first key stands for it. */
function firstKey(node: ParsedNode | null | undefined): Stretch | undefined {
  return isMap(node) && node.items[0] ? stretchOf(node.items[0].key) : undefined;
}

function into(node: Node | null | undefined, part: string | number): Step | undefined {
  if (isSeq(node)) {
    const item = node.items[Number(part)];
    if (item === undefined || isPair(item)) return undefined;
    const stretch = stretchOf(item) ?? stretchOf(node);
    return stretch && { node: item as Node, key: (isMap(item) && entryStart(item)) || stretch };
  }
  if (!isMap(node)) return undefined;
  const pair = node.items.find((candidate) => keyText(candidate) === String(part));
  const stretch = pair && stretchOf(pair.key);
  return stretch && { node: pair.value as Node | null, key: stretch };
}

/** A block entry of a list is shown by its first key, a flow entry whole. */
function entryStart(item: Node): Stretch | undefined {
  return isMap(item) && item.flow !== true && item.items[0] ? stretchOf(item.items[0].key) : undefined;
}

/** Keys are compared as text, since one parser makes a number of `0:` and the other does not. */
function keyText(pair: Pair): string {
  return isScalar(pair.key) ? (pair.key.source ?? String(pair.key.value)) : '';
}

function stretchOf(node: unknown): Stretch | undefined {
  const range = (node as Node | null | undefined)?.range;
  return range ? { start: range[0], end: range[1] } : undefined;
}

import { FAILSAFE_SCHEMA, load, Type, YAMLException } from 'js-yaml';
import {
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  parseDocument,
  type Document,
  type Node,
  type Pair,
  type ParsedNode,
} from 'yaml';
import type { RecordPath } from '../problem/problem.js';
import { PlainScalar, decimalDigits } from './plain-scalar.js';

export type YamlReading =
  | { readonly outcome: 'value'; readonly value: unknown }
  /** Where the parser stopped, as an offset in the text it was given, and its reason in its own words. */
  | { readonly outcome: 'failure'; readonly at: number; readonly reason: string };

/**
 * Nothing is read as anything but what is written: `true` and `false`, an absent value, decimal digits. All else is
 * text, so dates, `12E5`, `+44…`, `0x1F` and `.inf` arrive as their own characters and no second reading is needed.
 */
const schema = FAILSAFE_SCHEMA.extend({
  implicit: [
    new Type('tag:yaml.org,2002:null', {
      kind: 'scalar',
      resolve: (source: string | null) =>
        source === null || source === '' || source === '~' || source === 'null',
      construct: () => null,
    }),
    new Type('tag:yaml.org,2002:bool', {
      kind: 'scalar',
      resolve: (source: unknown) => source === 'true' || source === 'false',
      construct: (source: string) => source === 'true',
    }),
    new Type('tag:yaml.org,2002:float', {
      kind: 'scalar',
      resolve: (source: unknown) => typeof source === 'string' && decimalDigits.test(source),
      construct: (source: string) =>
        String(Number(source)) === source ? Number(source) : new PlainScalar(source),
    }),
  ],
});

/** Parses front matter fast, without places. Keys written twice, tags and deep nesting are failures. */
export function parseYaml(yaml: string): YamlReading {
  try {
    return { outcome: 'value', value: load(yaml, { schema }) ?? {} };
  } catch (error) {
    if (error instanceof YAMLException) {
      return { outcome: 'failure', at: error.mark?.position ?? 0, reason: error.reason };
    }
    if (error instanceof RangeError) return { outcome: 'failure', at: 0, reason: 'nesting exceeded' };
    throw error;
  }
}

/** A stretch of the front matter, as offsets in it; `end` is the first character after. */
export interface YamlStretch {
  readonly start: number;
  readonly end: number;
}

/** The way from a path in the record to its characters in the file. */
export interface YamlPlaces {
  /** The last key of the path (for a list index, its entry); the nearest parent's key where it is not written. */
  readonly key: (path: RecordPath) => YamlStretch;
  /** What the path holds; its key where that is nothing or runs over several lines. */
  readonly value: (path: RecordPath) => YamlStretch;
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
  const top: YamlStretch = { start: 0, end: 0 };
  const key = (path: RecordPath): YamlStretch => walk(document, path, top).key;
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
  readonly key: YamlStretch;
}

function walk(document: Document.Parsed | undefined, path: RecordPath, top: YamlStretch): Step {
  let step: Step = { node: document?.contents, key: firstKey(document?.contents) ?? top };
  for (const part of path) {
    const next = into(step.node, part);
    if (!next) return { ...step, node: undefined };
    step = next;
  }
  return step;
}

/** Where the whole record is meant, its first key stands for it. */
function firstKey(node: ParsedNode | null | undefined): YamlStretch | undefined {
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
  const pair = node.items.find((candidate) => keyOf(candidate) === String(part));
  const stretch = pair && stretchOf(pair.key);
  return stretch && { node: pair.value as Node | null, key: stretch };
}

/** A block entry of a list is shown by its first key, a flow entry whole. */
function entryStart(item: Node): YamlStretch | undefined {
  return isMap(item) && item.flow !== true && item.items[0] ? stretchOf(item.items[0].key) : undefined;
}

/** Keys are compared as text, since one parser makes a number of `0:` and the other does not. */
export function keyOf(pair: Pair): string {
  return isScalar(pair.key) ? (pair.key.source ?? String(pair.key.value)) : '';
}

function stretchOf(node: unknown): YamlStretch | undefined {
  const range = (node as Node | null | undefined)?.range;
  return range ? { start: range[0], end: range[1] } : undefined;
}

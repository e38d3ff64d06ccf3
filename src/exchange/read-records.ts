import type { z } from 'zod';
import { explainIssues } from '../casefile/explain/explain-issues.js';
import type { FileKind } from '../casefile/explain/explain-key.js';
import { reservedKeys, wantedBy } from '../casefile/wanted.js';
import { sourceText } from '../casefile/source-text.js';
import { type InYaml, inText, problemOf, slip } from '../casefile/finding.js';
import { type YamlPlaces, yamlPlaces } from '../casefile/parse-yaml.js';
import type { Finding, Problem, RecordPath } from '../problem/problem.js';
import { sortProblems } from '../problem/format-problem.js';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { type Records, records } from './records-json.js';
import { parseDocument } from 'yaml';
import { terminal } from '../problem/message.js';

/** The version of `records.json` this program writes, and the last it reads. */
const newest = 1;

export type RecordsRead =
  | { readonly outcome: 'records'; readonly records: Records }
  /** It is no file of records at all, or none this program knows; the message is whole. */
  | { readonly outcome: 'not-ours'; readonly message: string }
  | { readonly outcome: 'refused'; readonly problems: readonly Problem[] };

/**
 * Reads what `recordsAsJson` wrote, and refuses all else with its place.
 *
 * Shape:   `file` is the name it goes by in messages
 * Error:   every trouble of the whole file at once; a key written twice, a key nobody knows, a text for a number
 * Checked: tests/exchange/read-records.test.ts
 */
export function readRecords(text: string, file: string): RecordsRead {
  const parsed = parsedJson(text, file);
  if (parsed.outcome === 'not-json') return { outcome: 'not-ours', message: parsed.message };
  const { value } = parsed;
  const notOurs = whyNotOurs(value, file);
  if (notOurs !== undefined) return { outcome: 'not-ours', message: notOurs };
  const read = records.safeParse(value);
  const reserved = reservedKeys(value);
  if (read.success && reserved.length === 0) return { outcome: 'records', records: read.data };
  const troubles = [
    ...explainedIssues(read.success ? [] : read.error.issues, value, text),
    ...reserved.map((each) => slip(each, yamlPlaces(text).key(each.path))),
  ];
  const source = sourceText(text);
  const problems = troubles.map((each) =>
    problemOf(inText(each, source.placeAt(each.stretch.start, each.stretch.end)), file, source),
  );
  return { outcome: 'refused', problems: sortProblems(problems) };
}

/** Of another kind of file, one sentence says more than every key of it. */
function whyNotOurs(value: unknown, file: string): string | undefined {
  const { growdown, version } = Object(value) as { growdown?: unknown; version?: unknown };
  if (growdown !== 'records') return terminal('exchange.no-records', { file });
  if (typeof version === 'number' && version > newest)
    return terminal('exchange.newer', { file, version, newest });
  return undefined;
}

/** The issues of each record in the words of its own kind of file; the rest as of the whole. */
function explainedIssues(
  issues: readonly z.core.$ZodIssue[],
  value: unknown,
  text: string,
): Finding<InYaml>[] {
  const groups = new Map<string, { readonly path: RecordPath; readonly issues: z.core.$ZodIssue[] }>();
  for (const issue of issues) {
    const path = recordAbove(issue.path.map((part) => (typeof part === 'number' ? part : String(part))));
    const group = groups.get(path.join('/')) ?? { path, issues: [] };
    groups.set(path.join('/'), group);
    group.issues.push({ ...issue, path: issue.path.slice(path.length) });
  }
  const places = groups.size > 0 ? yamlPlaces(text) : undefined;
  return [...groups.values()].flatMap(({ path, issues: own }) => {
    const { kind, model } = modelAt(path);
    return explainIssues(own, {
      kind,
      root: wantedBy(model),
      value: path.reduce<unknown>((inner, part) => Reflect.get(Object(inner) as object, part), value),
      // What only goes wrong in front matter is not looked for in JSON.
      yaml: '',
      places: within(places ?? yamlPlaces(text), path),
    });
  });
}

/** The path of the record that a path leads into; empty where it leads into none. */
function recordAbove(path: RecordPath): RecordPath {
  const end = path.indexOf('record');
  return end === -1 ? [] : path.slice(0, end + 1);
}

function modelAt(path: RecordPath): { readonly kind: FileKind; readonly model: z.ZodType } {
  if (path[0] === 'business') return { kind: 'business', model: business };
  if (path.length === 0) return { kind: 'farm', model: records };
  return path.includes('animals') ? { kind: 'animal', model: animal } : { kind: 'farm', model: farm };
}

function within(places: YamlPlaces, path: RecordPath): YamlPlaces {
  return {
    key: (inner) => places.key([...path, ...inner]),
    value: (inner) => places.value([...path, ...inner]),
  };
}

type JsonParsed =
  | { readonly outcome: 'json'; readonly value: unknown }
  /** With its place where that can be determined; the message is whole. */
  | { readonly outcome: 'not-json'; readonly message: string };

/**
 * JSON text → what it holds. A member written twice is refused: the parser would keep the last one in silence.
 *
 * Shape: `file` is the name it goes by in messages
 */
function parsedJson(text: string, file: string): JsonParsed {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const place = file + brokenAt(text, String(error));
    return { outcome: 'not-json', message: terminal('exchange.no-json', { place }) };
  }
  if (membersWritten(text) === membersIn(value)) return { outcome: 'json', value };
  return {
    outcome: 'not-json',
    message: terminal('exchange.name-twice', { place: file + brokenAt(text, '') }),
  };
}

/** Where a second, slower parser that knows lines meets the first trouble; else where the first one says. */
function brokenAt(text: string, said: string): string {
  const [first] = parseDocument(text, { schema: 'json', logLevel: 'silent', prettyErrors: false }).errors;
  const [, position] = /position (\d+)/.exec(said) ?? [];
  const offset = position === undefined ? first?.pos[0] : Number(position);
  if (offset === undefined) return '';
  const { line, column } = sourceText(text).placeAt(offset, offset + 1);
  return `:${line}:${column}`;
}

/** Texts that a colon follows, counted; a text inside another is passed over with it. */
function membersWritten(text: string): number {
  let count = 0;
  for (const [, colon] of text.matchAll(/"[^"\\]*(?:\\.[^"\\]*)*"\s*(:)?/g))
    if (colon !== undefined) count += 1;
  return count;
}

function membersIn(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const own = Array.isArray(value) ? 0 : Object.keys(value).length;
  return Object.values(value).reduce<number>((sum, inner) => sum + membersIn(inner), own);
}

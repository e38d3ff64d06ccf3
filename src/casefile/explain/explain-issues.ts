import type { z } from 'zod';
import type { Finding, Message, RecordPath } from '../../problem/problem.js';
import { messageOf } from '../../problem/message.js';
import { type InYaml, shown, slip } from '../finding.js';
import { messageWords } from '../../reference/words.js';
import { isGroup, isReserved, type Wanted } from '../wanted.js';
import type { YamlStretch, YamlPlaces } from '../parse-yaml.js';
import {
  explainBadName,
  explainMissingKey,
  explainUnknownKey,
  stepInto,
  type FileKind,
} from './explain-key.js';
import { explainValue } from './explain-value.js';
import { commentInText, type MustStand } from './said.js';
import { equals, gluedColon, noSpaceAfterHyphen, lineAt } from '../slips/explain-failure.js';

type Issue = z.core.$ZodIssue;

/** More unknown keys than this in one place are not told one by one: it is another kind of file. */
const mostKeys = 50;

/** A refused file: its kind, what it may hold, what it holds, its front matter and the way to places in it. */
export interface Refused {
  readonly kind: FileKind;
  readonly root: Wanted;
  readonly value: unknown;
  readonly yaml: string;
  readonly places: YamlPlaces;
}

/** Turns the schema's issues into findings in the words of the trade, one a place. */
export function explainIssues(issues: readonly Issue[], refused: Refused): Finding<InYaml>[] {
  const all = issues.flatMap((issue) => explainIssue(issue, [], refused));
  const seen = new Set<string>();
  return all.filter(({ id, message, stretch }) => {
    const mark = `${id} ${stretch.start} ${message}`;
    return seen.has(mark) ? false : Boolean(seen.add(mark));
  });
}

function explainIssue(issue: Issue, above: RecordPath, refused: Refused): Finding<InYaml>[] {
  const path = [...above, ...issue.path.map((part) => (typeof part === 'number' ? part : String(part)))];
  if (issue.code === 'unrecognized_keys') {
    const astray = astrayAt(path, refused);
    const told = new Set(astray.flatMap(({ keys }) => keys));
    const unknown = issue.keys.filter((key) => !isReserved(key) && !told.has(key)).slice(0, mostKeys);
    return [
      ...astray.map((each) => besideIts(each, path, refused)),
      ...unknown.map((key) => ({ ...unknownKey(key, path, refused), path: [...path, key] })),
    ];
  }
  if (issue.code === 'invalid_key')
    return isReserved(String(path.at(-1))) ? [] : [{ ...badName(path, refused), path }];
  const inner =
    issue.code === 'invalid_union' ? issue.errors.find((form) => !form.some(isAboutTheWhole)) : undefined;
  if (inner) return inner.flatMap((innerIssue) => explainIssue(innerIssue, path, refused));
  const holder = astrayAt(path.slice(0, -1), refused).some((each) => each.holder === path.at(-1));
  return holder ? [] : [{ ...badValue(path, refused), path }];
}

/** Keys of the group at a path that belong under an empty key beside them. */
function astrayAt(path: RecordPath, refused: Refused): NotIndented[] {
  return notIndented(at(refused.value, path), wantedAt(refused.root, path), declaredIn(refused.value));
}

function besideIts(astray: NotIndented, path: RecordPath, refused: Refused): Finding<InYaml> {
  const stretch = refused.places.key([...path, astray.keys[0] ?? '']);
  return slip(explainNotIndented(astray, declaredIn(refused.value)), stretch);
}

function isAboutTheWhole(issue: Issue): boolean {
  return issue.path.length === 0 && issue.code !== 'unrecognized_keys';
}

function unknownKey(key: string, path: RecordPath, refused: Refused): Finding<InYaml> {
  const stretch = refused.places.key([...path, key]);
  const value = at(refused.value, [...path, key]);
  const comma = value === null ? decimalCommaInBraces(refused.yaml, stretch) : undefined;
  if (comma) return comma;
  const wanted = wantedAt(refused.root, path);
  const group = at(refused.value, path);
  const present = isGroup(group) ? Object.keys(group) : [];
  const keys = wanted?.kind === 'group' ? [...wanted.keys.keys()] : [];
  return slip(explainUnknownKey(key, value, { ...refused, path, keys, present }), stretch);
}

function badName(path: RecordPath, refused: Refused): Finding<InYaml> {
  const wanted = wantedAt(refused.root, path.slice(0, -1));
  const names = wanted?.kind === 'named' ? wanted.names : 'short-name';
  const key = String(path.at(-1));
  const stretch = refused.places.key(path);
  const comma = at(refused.value, path) === null ? decimalCommaInBraces(refused.yaml, stretch) : undefined;
  return comma ?? slip(explainBadName(key, names), stretch);
}

function badValue(path: RecordPath, refused: Refused): Finding<InYaml> {
  const parent = at(refused.value, path.slice(0, -1));
  const key = path.at(-1);
  if (typeof key === 'string' && isGroup(parent) && !Object.hasOwn(parent, key)) {
    const above = path.slice(0, -1);
    const missing = explainMissingKey(key, wantedAt(refused.root, path), { ...refused, path: above });
    return slip(missing, refused.places.key(above));
  }
  const value = at(refused.value, path);
  const stretch = refused.places.value(path);
  const ranOn = ranIntoNextLine(refused.yaml, stretch);
  if (ranOn) return ranOn;
  const swallowed = value === null ? swallowedByComment(refused.yaml, refused.places.key(path)) : undefined;
  if (swallowed) return swallowed;
  const wanted = wantedAt(refused.root, path) ?? { kind: 'text' };
  const glued = wanted.kind === 'list' ? gluedHyphenIn(value) : undefined;
  if (glued)
    return slip(glued.said, glued.key === undefined ? stretch : refused.places.key([...path, glued.key]));
  const around = wantedAt(refused.root, path.slice(0, -1));
  const isRequired = around?.kind === 'group' && around.keys.get(String(key))?.required === true;
  const must: MustStand | undefined = typeof key === 'number' ? 'entry' : isRequired ? 'required' : undefined;
  return slip(explainValue(nameOfPath(path), wanted, value, must), stretch);
}

function wantedAt(root: Wanted, path: RecordPath): Wanted | undefined {
  let wanted: Wanted | undefined = root;
  for (const part of path) wanted = stepInto(wanted, part);
  if (wanted?.kind === 'either') return wanted.forms.find((form) => form.kind === 'group') ?? wanted;
  return wanted;
}

/** What a path holds, own keys only. */
function at(value: unknown, path: RecordPath): unknown {
  let inner = value;
  for (const part of path) {
    if (typeof inner !== 'object' || inner === null || !Object.hasOwn(inner, part)) return undefined;
    inner = (inner as Record<string | number, unknown>)[part];
  }
  return inner;
}

/**
 * A path in the words of a message. Which visit and which entry of a list is left out: the line says it.
 * Of visits, 2, found, a, top: `found.a.top`.
 */
function nameOfPath(path: RecordPath): string {
  const inner = path[0] === 'visits' && path.length > 2 ? path.slice(2) : path;
  const name = inner.filter((part) => typeof part === 'string').join('.');
  if (name === '') return messageWords().say('place.whole');
  return typeof path.at(-1) === 'number' ? messageWords().say('place.entry', { name }) : name;
}

/** `{ top: 2,5 }` reads as `top: 2` and a key `5` that holds nothing. */
function decimalCommaInBraces(yaml: string, key: YamlStretch): Finding<InYaml> | undefined {
  const before = /([a-z][a-z-]*):\s*(-?\d+),$/.exec(yaml.slice(Math.max(0, key.start - 40), key.start));
  const digits = yaml.slice(key.start, key.end);
  const [, name, whole] = before ?? [];
  if (whole === undefined || !/^\d+$/.test(digits)) return undefined;
  const values = { name: name!, found: shown(`${whole},${digits}`), meant: `${whole}.${digits}` };
  return slip(messageOf('value/decimal-comma', values), {
    start: key.start - whole.length - 1,
    end: key.end,
  });
}

/** A line such as `gait:2` under a value without quotes is taken for more of that value. */
function ranIntoNextLine(yaml: string, value: YamlStretch): Finding<InYaml> | undefined {
  if (/^["'[{|>]/.test(yaml.slice(value.start, value.start + 1))) return undefined;
  const next = yaml.indexOf('\n', value.start) + 1;
  if (next === 0 || next >= value.end) return undefined;
  const line = lineAt(yaml, next);
  return gluedColon(line) ?? equals(line);
}

/** `note: #2 is better` holds nothing: all of it is a comment. */
function swallowedByComment(yaml: string, key: YamlStretch): Finding<InYaml> | undefined {
  const [all, gap, comment] = /^(\s*:[ \t]+)(#[^\n]*)/.exec(yaml.slice(key.end, key.end + 500)) ?? [];
  if (all === undefined || gap === undefined || comment === undefined || /^#\s/.test(comment))
    return undefined;
  const start = key.end + gap.length;
  return slip(commentInText(yaml.slice(key.start, key.end), comment), {
    start,
    end: start + comment.length,
  });
}

/** `-foot: LH` alone, or `-LH`, parses: as a key or a text that begins with a hyphen, where a list is wanted. */
function gluedHyphenIn(value: unknown): { said: Message; key?: string } | undefined {
  if (typeof value === 'string') {
    const [, text] = /^-([A-Za-z].*)$/s.exec(value) ?? [];
    return text === undefined ? undefined : { said: noSpaceAfterHyphen(value, `- ${text}`) };
  }
  const key = isGroup(value) ? Object.keys(value).find((each) => /^-[a-z]/.test(each)) : undefined;
  if (key === undefined) return undefined;
  return { said: noSpaceAfterHyphen(`${key}:`, `- ${key.slice(1)}: …`), key };
}

/** Keys that stand beside the key they belong under, which therefore holds nothing. */
interface NotIndented {
  /** The key that holds nothing. */
  readonly holder: string;
  /** The keys meant for it, in the order written. */
  readonly keys: readonly string[];
}

/**
 * `found:` with `a: { … }` below it in the same column: the entry becomes a key of the visit, and `found` holds nothing.
 *
 * Only keys the group does not know are looked at, and only where they follow the empty key at once. Under names of
 * the user's own choice, those declared are meant, or whatever holds keys of its own.
 */
function notIndented(
  group: unknown,
  wanted: Wanted | undefined,
  declared: ReadonlyMap<string, string>,
): NotIndented[] {
  if (!isGroup(group) || wanted?.kind !== 'group') return [];
  const meant = new Map<string, string[]>();
  let holder: string | undefined;
  for (const [key, value] of Object.entries(group)) {
    const own = wanted.keys.get(key);
    if (own) holder = value === null ? key : undefined;
    const under = own || holder === undefined ? undefined : wanted.keys.get(holder)?.wanted;
    if (under && holder !== undefined && couldHold(under, key, value, declared))
      meant.set(holder, [...(meant.get(holder) ?? []), key]);
  }
  return [...meant].map(([each, keys]) => ({ holder: each, keys }));
}

function couldHold(
  wanted: Wanted,
  key: string,
  value: unknown,
  declared: ReadonlyMap<string, string>,
): boolean {
  if (wanted.kind === 'either') return wanted.forms.some((form) => couldHold(form, key, value, declared));
  if (wanted.kind === 'group') return wanted.keys.has(key);
  return wanted.kind === 'named' && (declared.has(key) || isGroup(value));
}

function explainNotIndented({ holder, keys }: NotIndented, declared: ReadonlyMap<string, string>): Message {
  const [first = ''] = keys;
  const what = declared.get(first);
  const values = { holder, keys: keys.map((key) => `\`${key}\``).join(', '), count: keys.length };
  return what !== undefined && keys.length === 1
    ? messageOf('key/elsewhere', { ...values, what }, 'declared-not-indented')
    : messageOf('key/elsewhere', values, 'not-indented');
}

/** The names an animal's file declares, with what each is. */
function declaredIn(record: unknown): ReadonlyMap<string, string> {
  if (!isGroup(record)) return new Map();
  const names = (key: 'lesions' | 'marks', what: string): [string, string][] =>
    isGroup(record[key]) ? Object.keys(record[key]).map((name) => [name, what]) : [];
  return new Map([...names('marks', 'mark'), ...names('lesions', 'lesion')]);
}

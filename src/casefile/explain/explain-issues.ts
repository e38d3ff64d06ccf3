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
  withoutOddSpaces,
  type FileKind,
} from './explain-key.js';
import { commentInText, explainValue, type MustStand } from './explain-value.js';
import { equals, gluedColon, noSpaceAfterHyphen, lineAt } from '../slips/explain-failure.js';

type Issue = z.core.$ZodIssue;

/** More unknown keys than this in one place are not listed one by one: it is another kind of file. */
const mostKeys = 50;

/** A refused file: its kind, what it may hold, what it holds, its front matter and the way to places in it. */
interface Refused {
  readonly kind: FileKind;
  readonly root: Wanted;
  readonly value: unknown;
  readonly yaml: string;
  readonly places: YamlPlaces;
}

/** Turns the schema's issues into findings in the words of the trade, one a place. */
export function explainIssues(issues: readonly Issue[], refused: Refused): Finding<InYaml>[] {
  const all = issues.flatMap((issue) => explainIssue(issue, [], refused));
  const byMark = new Map(
    all.toReversed().map((one) => [`${one.id} ${one.stretch.start} ${one.message}`, one] as const),
  );
  const firsts = new Set(byMark.values());
  return all.filter((one) => firsts.has(one));
}

function explainIssue(issue: Issue, above: RecordPath, refused: Refused): Finding<InYaml>[] {
  const path = [...above, ...issue.path.map((part) => (typeof part === 'number' ? part : String(part)))];
  if (issue.code === 'unrecognized_keys') {
    const declared = declaredIn(refused.value);
    const astray = [...astrayAt(path, refused)];
    const told = new Set(astray.flatMap(([, keys]) => keys));
    const unknown = issue.keys.filter((key) => !isReserved(key) && !told.has(key)).slice(0, mostKeys);
    return [
      ...astray.map(([holder, keys]) =>
        slip(explainNotIndented(holder, keys, declared), refused.places.key([...path, keys[0]!])),
      ),
      ...unknown.map((key) => ({ ...unknownKey(key, path, refused), path: [...path, key] })),
    ];
  }
  if (issue.code === 'invalid_key')
    return isReserved(String(path.at(-1))) ? [] : [{ ...badName(path, refused), path }];
  const isAboutTheWhole = (one: Issue): boolean => one.path.length === 0 && one.code !== 'unrecognized_keys';
  const inner =
    issue.code === 'invalid_union' ? issue.errors.find((form) => !form.some(isAboutTheWhole)) : undefined;
  if (inner) return inner.flatMap((innerIssue) => explainIssue(innerIssue, path, refused));
  const [holds, key] = [path.slice(0, -1), String(path.at(-1))];
  const isHolder = astrayAt(holds, refused).has(key);
  const group = at(refused.value, holds);
  const isThere =
    isGroup(group) &&
    !Object.hasOwn(group, key) &&
    Object.keys(group).some((one) => withoutOddSpaces(one) === key);
  return isHolder || isThere ? [] : [{ ...badValue(path, refused), path }];
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
  const stretch = refused.places.key(path);
  const comma = at(refused.value, path) === null ? decimalCommaInBraces(refused.yaml, stretch) : undefined;
  return comma ?? slip(explainBadName(String(path.at(-1)), names), stretch);
}

function badValue(path: RecordPath, { value: whole, ...refused }: Refused): Finding<InYaml> {
  const { root, yaml, places } = refused;
  const above = path.slice(0, -1);
  const parent = at(whole, above);
  const key = path.at(-1);
  const wanted = wantedAt(root, path);
  if (typeof key === 'string' && isGroup(parent) && !Object.hasOwn(parent, key))
    return slip(explainMissingKey(key, wanted, { ...refused, path: above }), places.key(above));
  const value = at(whole, path);
  const stretch = places.value(path);
  const lost =
    ranIntoNextLine(yaml, stretch) ??
    (value === null ? swallowedByComment(yaml, places.key(path)) : undefined);
  if (lost) return lost;
  const glued = wanted?.kind === 'list' ? gluedHyphenIn(value) : undefined;
  if (glued) return slip(glued.said, glued.key === undefined ? stretch : places.key([...path, glued.key]));
  const around = wantedAt(root, above);
  const isRequired = around?.kind === 'group' && around.keys.get(String(key))?.required === true;
  const must: MustStand | undefined = typeof key === 'number' ? 'entry' : isRequired ? 'required' : undefined;
  return slip(explainValue(nameOfPath(path), wanted ?? { kind: 'text' }, value, must), stretch);
}

function wantedAt(root: Wanted, path: RecordPath): Wanted | undefined {
  const wanted = path.reduce<Wanted | undefined>(stepInto, root);
  if (wanted?.kind !== 'either') return wanted;
  return wanted.forms.find((form) => form.kind === 'group') ?? wanted;
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

/** `{ top: 2,5 }` is read as `top: 2` and a key `5` that holds nothing. */
function decimalCommaInBraces(yaml: string, { start, end }: YamlStretch): Finding<InYaml> | undefined {
  const digits = yaml.slice(start, end);
  const [, name, whole] =
    /([a-z][a-z-]*):\s*(-?\d+),$/.exec(yaml.slice(Math.max(0, start - 40), start)) ?? [];
  if (name === undefined || whole === undefined || !/^\d+$/.test(digits)) return undefined;
  const said = { name, found: shown(`${whole},${digits}`), meant: `${whole}.${digits}` };
  return slip(messageOf('value/decimal-comma', said), { start: start - whole.length - 1, end });
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
  const [, gap = '', comment] = /^(\s*:[ \t]+)(#[^\n]*)/.exec(yaml.slice(key.end, key.end + 500)) ?? [];
  if (comment === undefined || /^#\s/.test(comment)) return undefined;
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

/**
 * Keys of the group at a path that belong under an empty key beside them, by that key: of `found:` with `a: { … }` below
 * it in the same column the entry becomes a key of the visit, and `found` holds nothing.
 *
 * Only keys the group does not know are looked at, and only where they follow the empty key at once. Under names of
 * the user's own choice, those declared are meant, or whatever holds keys of its own.
 */
function astrayAt(path: RecordPath, { root, value: whole }: Refused): Map<string, string[]> {
  const [group, wanted, declared] = [at(whole, path), wantedAt(root, path), declaredIn(whole)];
  const astray = new Map<string, string[]>();
  if (!isGroup(group) || wanted?.kind !== 'group') return astray;
  let holder: string | undefined;
  for (const [key, value] of Object.entries(group)) {
    if (wanted.keys.has(key)) holder = value === null ? key : undefined;
    else if (holder !== undefined && couldHold(wanted.keys.get(holder)!.wanted, key, value, declared))
      astray.set(holder, [...(astray.get(holder) ?? []), key]);
  }
  return astray;
}

type Declared = ReadonlyMap<string, string>;

function couldHold(wanted: Wanted, key: string, value: unknown, declared: Declared): boolean {
  if (wanted.kind === 'either') return wanted.forms.some((form) => couldHold(form, key, value, declared));
  if (wanted.kind === 'group') return wanted.keys.has(key);
  return wanted.kind === 'named' && (declared.has(key) || isGroup(value));
}

function explainNotIndented(holder: string, keys: readonly string[], declared: Declared): Message {
  const what = keys.length === 1 ? declared.get(keys[0]!) : undefined;
  const values = { holder, keys: keys.map((key) => `\`${key}\``).join(', '), count: keys.length };
  return what === undefined
    ? messageOf('key/elsewhere', values, 'not-indented')
    : messageOf('key/elsewhere', { ...values, what }, 'declared-not-indented');
}

/** The names an animal's file declares, with what each is. */
function declaredIn(record: unknown): Declared {
  const names = (key: 'lesions' | 'marks', what: string): [string, string][] => {
    const group = at(record, [key]);
    return isGroup(group) ? Object.keys(group).map((name) => [name, what]) : [];
  };
  return new Map([...names('marks', 'mark'), ...names('lesions', 'lesion')]);
}

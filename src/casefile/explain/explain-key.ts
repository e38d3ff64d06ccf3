import { z } from 'zod';
import { inRow, messageOf } from '../../problem/message.js';
import type { Message, RecordPath } from '../../problem/problem.js';
import { readShared } from '../../reference/read-shared.js';
import type { Wanted } from '../wanted.js';
import { nearestWord, keyInstead, otherWord } from '../nearest-word.js';
import { shown, wordsInRow } from '../finding.js';

/** Which of the three kinds of file. */
export type FileKind = 'animal' | 'farm' | 'business';

const shape = z.record(z.enum(['animal', 'farm', 'business']), z.record(z.string(), z.string()));
let read: Readonly<Record<FileKind, Readonly<Record<string, string>>>> | undefined;

/** What a group of keys is called, such as "a visit"; by its pattern, `[]` for a list's entry and `{}` for a named one. */
function groupWords(kind: FileKind, pattern: string): string {
  read ??= readShared('case-places.json', shape);
  return read[kind][pattern] ?? `\`${pattern.replaceAll(/\/?(\[\]|\{\})/g, '').replaceAll('/', '.')}\``;
}

/** The pattern of the group a path leads to, following what is wanted there. */
function patternOf(root: Wanted, path: RecordPath): string {
  const parts: string[] = [];
  let wanted: Wanted | undefined = root;
  for (const part of path) {
    if (wanted?.kind === 'either') {
      wanted = wanted.forms.find((form) =>
        typeof part === 'number' ? form.kind === 'list' : form.kind === 'group',
      );
    }
    if (wanted?.kind === 'list') parts.push('[]');
    else if (wanted?.kind === 'named') parts.push('{}');
    else parts.push(String(part));
    wanted = stepInto(wanted, part);
  }
  return parts.join('/').replace(/\/feet\/(LF|RF|LH|RH)$/, '/feet/*');
}

/** What is wanted one step further in. */
export function stepInto(wanted: Wanted | undefined, part: string | number): Wanted | undefined {
  switch (wanted?.kind) {
    case 'list':
    case 'named':
      return wanted.of;
    case 'group':
      return wanted.keys.get(String(part))?.wanted;
    case 'either':
      return wanted.forms.map((form) => stepInto(form, part)).find((form) => form !== undefined);
    default:
      return undefined;
  }
}

/** The groups of a kind of file that know a key, by pattern. */
function groupsKnowing(key: string, root: Wanted): string[] {
  const found: string[] = [];
  const visit = (wanted: Wanted, pattern: readonly string[]): void => {
    if (wanted.kind === 'list') visit(wanted.of, [...pattern, '[]']);
    if (wanted.kind === 'named') visit(wanted.of, [...pattern, '{}']);
    if (wanted.kind === 'either') wanted.forms.forEach((form) => visit(form, pattern));
    if (wanted.kind !== 'group') return;
    if (wanted.keys.has(key)) found.push(pattern.join('/'));
    for (const [name, { wanted: inner }] of wanted.keys) {
      if (/^(LF|RF|LH|RH)$/.test(name) && name !== 'LF') continue;
      visit(inner, [...pattern, name === 'LF' ? '*' : name]);
    }
  };
  visit(root, []);
  return [...new Set(found)];
}

/** Where a key was written that nobody knows: the kind of file, what it may hold, the path of the group, the group's own keys. */
interface KeyPlace {
  readonly kind: FileKind;
  readonly root: Wanted;
  readonly path: RecordPath;
  readonly keys: readonly string[];
  /** Those of them that are written already: nobody means one of these. */
  readonly present: readonly string[];
}

/** Why a key is not known here: written another way, known elsewhere, or not at all. `value` is what it holds. */
export function explainUnknownKey(key: string, value: unknown, place: KeyPlace): Message {
  const slip = value === null ? joinedToItsValue(key) : undefined;
  if (slip) return slip;
  const bare = withoutOddSpaces(key);
  if (bare !== key) return messageOf('yaml/odd-space', { name: bare }, 'at-key');
  const pattern = patternOf(place.root, place.path);
  const here = groupWords(place.kind, pattern);
  const own = place.kind === 'animal' ? keyInstead(pattern, key) : undefined;
  if (own) return messageOf('key/elsewhere', { key, here, meant: own.key, how: own.mend }, 'instead');
  const elsewhere = groupsKnowing(key, place.root)
    .filter((other) => other !== pattern)
    .map((other) => groupWords(place.kind, other));
  const [first] = elsewhere;
  if (first !== undefined)
    return messageOf('key/elsewhere', { key, here, first, places: inRow('or', elsewhere.slice(0, 3)) });
  const bySound = [otherWord('keys', key), otherWord('words', key)].find((other) =>
    place.keys.includes(other ?? ''),
  );
  const known = place.keys.filter((other) => !place.present.includes(other));
  const meant = bySound ?? nearestWord(key, known) ?? nearestWord(key, place.keys);
  const found = shown(key);
  return meant === undefined
    ? messageOf('key/unknown', { found, here, keys: wordsInRow(place.keys) })
    : messageOf('key/unknown', { found, here, meant }, 'meant');
}

/** A key without the spaces of a special kind that were taken for a part of it. @example withoutOddSpaces('\u00a0top') // → 'top' */
export function withoutOddSpaces(key: string): string {
  return key.replaceAll(/^[\s\u200b\ufeff]+|[\s\u200b\ufeff]+$/g, '');
}

/** `top:22` and `top = 22` inside braces become keys that hold nothing. */
function joinedToItsValue(key: string): Message | undefined {
  const [, name, sign, gap, value] = /^([A-Za-z][\w-]*)\s*([:=])(\s*)(\S.*)$/s.exec(key) ?? [];
  if (name === undefined || value === undefined) return undefined;
  if (sign === ':' && gap !== '') return messageOf('yaml/odd-space', { name }, 'after-key');
  return runTogether(sign === ':' ? 'yaml/no-space-after-colon' : 'yaml/equals-sign', name, value);
}

/** A key and its value without a colon and a space between them. */
export function runTogether(
  id: 'yaml/no-space-after-colon' | 'yaml/equals-sign',
  name: string,
  value: string,
): Message {
  return messageOf(id, { name, meant: shown(`${name}: ${value}`) });
}

/** More words than this do not are in the example itself but behind it. */
const fewWords = 8;

/** What may appear behind a key that must be there; nothing that could be taken over unread. */
function exampleOf(wanted: Wanted | undefined): string {
  switch (wanted?.kind) {
    case 'version':
      return String(wanted.version);
    case 'word':
      return wanted.words.length > fewWords ? '…' : wanted.words.join(' | ');
    case 'day':
      return 'YYYY-MM-DD';
    case 'list':
      return '[]';
    case 'named':
      return '{}';
    case 'text':
      return '"…"';
    default:
      return '…';
  }
}

/** A key that must be there. */
export function explainMissingKey(
  key: string,
  wanted: Wanted | undefined,
  place: Omit<KeyPlace, 'keys' | 'present'>,
): Message {
  const values = {
    here: groupWords(place.kind, patternOf(place.root, place.path)),
    key,
    example: exampleOf(wanted),
  };
  return wanted?.kind === 'word' && wanted.words.length > fewWords
    ? messageOf('key/missing', { ...values, words: wordsInRow(wanted.words) }, 'many-words')
    : messageOf('key/missing', values);
}

/** A name of the user's own choice that is not of the right form. */
export function explainBadName(key: string, names: 'short-name' | 'digits'): Message {
  const found = shown(key);
  if (names === 'digits') return messageOf('key/name-form', { found }, 'digits');
  const meant = key.toLowerCase().replaceAll(/[\s_.]+/g, '-');
  return /^[a-z][a-z0-9-]{0,15}$/.test(meant) && meant !== key
    ? messageOf('key/name-form', { found, meant }, 'meant')
    : messageOf('key/name-form', { found });
}

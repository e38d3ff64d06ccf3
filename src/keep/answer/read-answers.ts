import type { Wanted, WantedKey } from '../../casefile/wanted.js';
import { inRow } from '../../problem/message.js';
import { given } from '../../record/given.js';
import {
  type Answer,
  answered,
  type Answering,
  nestedIn,
  typedValue,
  wordsMeant,
  wronglyPut,
} from './read-answer.js';
import { wordsInRow } from '../../casefile/finding.js';
import { nearestWord } from '../../casefile/nearest-word.js';

/**
 * All answers given under one key of a record, in the order given: a flag that came twice, the fields of a form.
 *
 * A list of groups takes one answer an entry; `found`, `feet`, `lesions` and `marks` take one answer a name, with a
 * colon behind it (`a: open, top 21`); a group takes one; a list of words takes them all; anything else takes one.
 *
 * Checked: tests/keep/answers.test.ts
 */
export function readAnswers(wanted: Wanted, typed: readonly string[], answering: Answering): Answer {
  return answered(() => valuesOf(wanted, typed, answering));
}

function valuesOf(wanted: Wanted, typed: readonly string[], answering: Answering): unknown {
  if (wanted.kind === 'named' || (wanted.kind === 'group' && isNames(wanted.keys)))
    return namedGroups(wanted, typed, answering);
  if (wanted.kind === 'either') {
    const plain = wanted.forms.find(({ kind }) => kind !== 'group' && kind !== 'list');
    const group = wanted.forms.find(({ kind }) => kind === 'group');
    return valuesOf(plain ?? group ?? wanted.forms[0]!, typed, answering);
  }
  if (wanted.kind === 'list') {
    const { of } = wanted;
    return of.kind === 'group'
      ? typed.map((text) => groupOf(of.keys, text, answering))
      : typedValue(wanted, typed.join(','), answering);
  }
  const [only = ''] = typed;
  if (typed.length > 1) wronglyPut(answering, 'given-often', { count: typed.length });
  return wanted.kind === 'group'
    ? groupOf(wanted.keys, only, answering)
    : typedValue(wanted, only, answering);
}

/** Names that are keys of the format themselves: the four feet. */
function isNames(keys: Keys): boolean {
  return [...keys.values()].every(({ wanted }) => wanted.kind === 'group');
}

function namedGroups(
  wanted: Extract<Wanted, { kind: 'named' | 'group' }>,
  typed: readonly string[],
  answering: Answering,
): Record<string, unknown> {
  const groups: Record<string, unknown> = {};
  const keys: Keys = wanted.kind === 'group' ? wanted.keys : new Map();
  const isPlain = wanted.kind === 'named' && wanted.of.kind !== 'group';
  for (const text of isPlain ? typed.flatMap((one) => one.split(',')) : typed) {
    const [, name, rest = ''] = /^\s*([A-Za-z0-9][A-Za-z0-9-]*)\s*(?::|=|\s|$)\s*([^]*)$/.exec(text) ?? [];
    if (name === undefined)
      return wronglyPut(answering, 'no-name', { found: text, example: example(wanted) });
    if (Object.hasOwn(groups, name)) wronglyPut(answering, 'given-twice', { key: name });
    const of = wanted.kind === 'named' ? wanted.of : keys.get(name.toUpperCase())?.wanted;
    if (!of)
      return wronglyPut(answering, 'unknown-name', { found: name, names: [...keys.keys()].join(', ') });
    const inner = nestedIn(answering, name);
    groups[wanted.kind === 'group' ? name.toUpperCase() : name] =
      of.kind === 'group' ? groupOf(of.keys, rest, inner) : typedValue(of, rest, inner);
  }
  return groups;
}

function example(wanted: Wanted): string {
  if (wanted.kind === 'group') return 'LH: signs heat';
  if (wanted.kind === 'named' && wanted.names === 'digits') return '0: 130, 1: 51';
  return 'a: open, top 21';
}

type Keys = ReadonlyMap<string, WantedKey>;
type Group = Record<string, unknown>;

/**
 * A group of keys typed on one line, such as `open, top 21, wall 43, tool ruler, signs undermined`.
 *
 * Parts have commas between them. A part is a key and its value; or a word that only one key of the group may hold,
 * which then needs no key; or a yes-or-no key alone, which means yes. A word of a key and of one that only says where
 * something differs from it (`tool`, `wall-tool`) is the former's; one of two lists (`signs`, `gone`) is the first's, until
 * the second was begun: then it may be either. Where the group has one key for free text that is
 * not given yet, a part that is none of these is that text. Where that text has to be given, its commas
 * need no quotes; elsewhere text in straight quotes keeps its commas. A key for several words may come more than once.
 * Of a block, `LH inner, fitted`: foot LH, claw inner, event fitted.
 */
function groupOf(keys: Keys, typed: string, answering: Answering): Group {
  const group: Group = {};
  // Where free text is in the group, its words are no beginnings of other words.
  const { byFirstLetters: _, ...inFull } = answering;
  const hasText = [...keys.values()].some(({ wanted, required }) => required && isText(wanted));
  // Commas in straight quotes belong to the text.
  const parts = typed.match(/(?:"(?:[^"\\]|\\.)*"|[^,"]|")+/g) ?? [];
  for (const part of parts.map((one) => one.trim()))
    if (part !== '') takePart(keys, part, group, hasText ? inFull : answering);
  return group;
}

function takePart(keys: Keys, part: string, group: Group, answering: Answering): void {
  const [, written = '', rest = ''] = /^([a-z-]+)(?:\s*[:=]\s*|\s+|$)([^]*)$/i.exec(part) ?? [];
  const key = written.toLowerCase();
  const known = keys.get(key);
  const fitting = fittingKeys(keys, part, group, answering);
  const [only, ...more] = fitting;
  // `on`, of a block: fitted, not the key of its day.
  if (known && (rest !== '' || known.wanted.kind === 'yes-no' || fitting.length !== 1))
    return take(key, known.wanted, rest, group, answering);
  if (only && more.length === 0) return take(only[0], only[1].wanted, part, group, answering);
  if (only)
    return wronglyPut(answering, 'several-keys', {
      found: part,
      keys: wordsInRow(fitting.map(([name]) => name)),
      key: only[0],
    });
  const phrases = phrasesOf(keys, part.split(/\s+/), group, answering);
  for (const phrase of phrases ?? []) takePart(keys, phrase, group, answering);
  if (!phrases && !takeWithheld(keys, part, group, answering)) takeAsText(keys, part, group, answering);
}

/** `left hind lateral off`: several words or phrases that each fit a key, the longest first; undefined where one does not. */
function phrasesOf(
  keys: Keys,
  words: readonly string[],
  group: Group,
  answering: Answering,
): readonly string[] | undefined {
  if (words.length === 0) return [];
  for (let count = Math.min(words.length, 5); count > 0; count -= 1) {
    const phrase = words.slice(0, count).join(' ');
    if (fittingKeys(keys, phrase, group, answering).length === 0) continue;
    const rest = phrasesOf(keys, words.slice(count), group, answering);
    if (rest) return [phrase, ...rest];
  }
  return undefined;
}

/**
 * `milk 0`, `nil meat`, `milk 12 hours`: what is withheld of a product, without its key. A number above 0 needs its unit where
 * several keys tell it.
 */
function takeWithheld(keys: Keys, part: string, group: Group, answering: Answering): boolean {
  const said = /^(?:(?<none>no|nil|zero|0) )?(?<what>[a-z]+)(?: withdrawal| withheld)?(?::?\s+(?<count>\S+?) ?(?<unit>[a-z]+)?)?$/i.exec(part)?.groups; // prettier-ignore
  const what = said?.['what']?.toLowerCase() ?? '';
  const fitting = [...keys.keys()].filter((key) => key.startsWith(`${what}-`) && /-(?:days|hours|milkings)$/.test(key)); // prettier-ignore
  if (fitting.length === 0) return false;
  const count = said!['none'] ?? said!['count'] ?? '';
  const none = /^(?:no|nil|none|zero|0)$/i.test(count);
  const unit = (said!['unit'] ?? '').toLowerCase();
  const [key, ...more] = fitting.filter((one) => unit === '' || one.startsWith(`${what}-${unit}`));
  if (key === undefined || (more.length > 0 && !none) || (!none && !/^\d+$/.test(count)))
    return wronglyPut(answering, 'withheld', { found: part, keys: inRow('or', fitting), key: fitting[0]! });
  take(key, keys.get(key)!.wanted, none ? '0' : count, group, answering);
  return true;
}

/** Keys whose closed list holds the word; those that hold it whole go before those it only begins a word of. */
function fittingKeys(keys: Keys, part: string, group: Group, answering: Answering): [string, WantedKey][] {
  const holding = (byFirstLetters: boolean): [string, WantedKey][] => {
    const own = [...keys].filter(([, { wanted }]) => {
      const of = wanted.kind === 'list' ? wanted.of : wanted;
      return (
        of.kind === 'word' &&
        wordsMeant(of.words, part, byFirstLetters ? answering : given({ speech: answering.speech })).length >
          0
      );
    });
    const firstList = own.find(([, { wanted }]) => wanted.kind === 'list')?.[0];
    return own.filter(
      ([name, { wanted }]) =>
        !own.some(([other]) => name.endsWith(`-${other}`)) &&
        (wanted.kind !== 'list' || name === firstList || group[name] !== undefined),
    );
  };
  const whole = holding(false);
  return whole.length > 0 ? whole : holding(true);
}

function takeAsText(keys: Keys, part: string, group: Group, answering: Answering): void {
  const texts = [...keys].filter(([, { wanted }]) => isText(wanted));
  const required = texts.filter(([, one]) => one.required);
  const isRequired = required.length > 0;
  const [only, ...others] = isRequired ? required : texts;
  if (only && others.length === 0) {
    const [key, { wanted }] = only;
    const begun = group[key];
    if (isRequired && typeof begun === 'string') {
      group[key] = `${begun}, ${part}`;
      return;
    }
    if (begun === undefined && (isRequired || part.startsWith('"')))
      return take(key, wanted, part, group, answering);
  }
  if (/^\d+$/.test(part)) wronglyPut(answering, 'lone-number', { found: part });
  const words = [...keys.values()].flatMap(({ wanted }) => (wanted.kind === 'word' ? wanted.words : []));
  const near = nearestWord(part.split(/\s/)[0]!, [...keys.keys(), ...words]) ?? nearestWord(part, words);
  const values = { found: part, keys: inRow('or', keys.keys()), meant: near ?? '' };
  wronglyPut(answering, near === undefined ? 'no-key' : 'no-key-near', values);
}

function isText({ kind }: Wanted): boolean {
  return kind === 'text' || kind === 'free-text';
}

/** A list of groups takes one entry each time its key is given: `does wrap off + on 2026-03-06`. */
function take(key: string, wanted: Wanted, text: string, group: Group, answering: Answering): void {
  const inner = nestedIn(answering, key);
  const parts = wanted.kind === 'list' ? text.replaceAll(/\s*\+\s*/g, ',') : text;
  const read: unknown =
    wanted.kind === 'list' && wanted.of.kind === 'group'
      ? [groupOf(wanted.of.keys, parts, inner)]
      : typedValue(wanted, parts, inner);
  const before = group[key];
  if (Array.isArray(before) && Array.isArray(read))
    group[key] = [...(before as unknown[]), ...(read as unknown[])];
  else if (before === undefined) group[key] = read;
  else wronglyPut(answering, 'given-twice', { key });
}

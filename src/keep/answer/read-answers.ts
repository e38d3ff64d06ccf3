import type { Wanted, WantedKey } from '../../casefile/wanted.js';
import { inRow } from '../../problem/message.js';
import { given } from '../../record/given.js';
import {
  type Answer,
  type Answering,
  readAnswer,
  value,
  nestedIn,
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
  if (wanted.kind === 'named' || (wanted.kind === 'group' && isNames(wanted.keys)))
    return namedGroups(wanted, typed, answering);
  if (wanted.kind === 'either') {
    const group = wanted.forms.find((form) => form.kind === 'group');
    const plain = wanted.forms.find((form) => form.kind !== 'group' && form.kind !== 'list');
    return readAnswers(plain ?? group ?? wanted.forms[0]!, typed, answering);
  }
  if (wanted.kind === 'list') {
    const { of } = wanted;
    if (of.kind === 'group') return each(typed, (text) => readGroup(of.keys, text, answering));
    return readAnswer(wanted, typed.join(','), answering);
  }
  const [only = ''] = typed;
  if (typed.length > 1) return wronglyPut(answering, 'given-often', { count: typed.length });
  return wanted.kind === 'group'
    ? readGroup(wanted.keys, only, answering)
    : readAnswer(wanted, only, answering);
}

/** Names that are keys of the format themselves: the four feet. */
function isNames(keys: ReadonlyMap<string, WantedKey>): boolean {
  return [...keys.values()].every(({ wanted }) => wanted.kind === 'group');
}

function each(typed: readonly string[], read: (text: string) => Answer): Answer {
  const values: unknown[] = [];
  for (const text of typed) {
    const one = read(text);
    if (one.outcome === 'trouble') return one;
    values.push(one.value);
  }
  return value(values);
}

function namedGroups(
  wanted: Extract<Wanted, { kind: 'named' | 'group' }>,
  typed: readonly string[],
  answering: Answering,
): Answer {
  const groups: Record<string, unknown> = {};
  const entries =
    wanted.kind === 'named' && wanted.of.kind !== 'group' ? typed.flatMap((text) => text.split(',')) : typed;
  for (const text of entries) {
    const [, name, rest = ''] = /^\s*([A-Za-z0-9][A-Za-z0-9-]*)\s*(?::|=|\s|$)\s*([^]*)$/.exec(text) ?? [];
    if (name === undefined)
      return wronglyPut(answering, 'no-name', { found: text, example: example(wanted) });
    if (Object.hasOwn(groups, name)) return wronglyPut(answering, 'given-twice', { key: name });
    const of = wanted.kind === 'named' ? wanted.of : wanted.keys.get(name.toUpperCase())?.wanted;
    if (!of)
      return wronglyPut(answering, 'unknown-name', {
        found: name,
        names: [...(wanted.kind === 'group' ? wanted.keys.keys() : [])].join(', '),
      });
    const inner = nestedIn(answering, name);
    const read = of.kind === 'group' ? readGroup(of.keys, rest, inner) : readAnswer(of, rest, inner);
    if (read.outcome === 'trouble') return read;
    groups[wanted.kind === 'group' ? name.toUpperCase() : name] = read.value;
  }
  return value(groups);
}

function example(wanted: Wanted): string {
  if (wanted.kind === 'group') return 'LH: signs heat';
  if (wanted.kind === 'named' && wanted.names === 'digits') return '0: 130, 1: 51';
  return 'a: open, top 21';
}

type Keys = ReadonlyMap<string, WantedKey>;

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
function readGroup(keys: Keys, typed: string, answering: Answering): Answer {
  const group: Record<string, unknown> = {};
  // Where free text stands in the group, its words are no beginnings of other words.
  const { byFirstLetters: _, ...inFull } = answering;
  const reading = [...keys.values()].some(({ wanted, required }) => required && isText(wanted))
    ? inFull
    : answering;
  for (const part of partsOf(typed)) {
    const wrong = takePart(keys, part, group, reading);
    if (wrong) return wrong;
  }
  return value(group);
}

/** Parts between commas; commas in straight quotes belong to the text. */
function partsOf(typed: string): string[] {
  const parts = typed.match(/(?:"(?:[^"\\]|\\.)*"|[^,"]|")+/g) ?? [];
  return parts.map((part) => part.trim()).filter((part) => part !== '');
}

function takePart(
  keys: Keys,
  part: string,
  group: Record<string, unknown>,
  answering: Answering,
): Answer | undefined {
  const [, key = '', rest = ''] = /^([a-z-]+)(?:\s*[:=]\s*|\s+|$)([^]*)$/i.exec(part) ?? [];
  const known = keys.get(key.toLowerCase());
  const fitting = fittingKeys(keys, part, group, answering);
  // `on`, of a block: fitted, not the key of its day.
  if (known && (rest !== '' || known.wanted.kind === 'yes-no' || fitting.length !== 1))
    return take(key.toLowerCase(), known.wanted, rest, group, answering);
  const [only] = fitting;
  if (only && fitting.length === 1) return take(only[0], only[1].wanted, part, group, answering);
  if (fitting.length > 1)
    return wronglyPut(answering, 'several-keys', {
      found: part,
      keys: wordsInRow(fitting.map(([name]) => name)),
      key: only![0],
    });
  const phrases = phrasesOf(keys, part.split(/\s+/), group, answering);
  for (const phrase of phrases ?? []) {
    const wrong = takePart(keys, phrase, group, answering);
    if (wrong) return wrong;
  }
  if (phrases) return undefined;
  const withheld = takeWithheld(keys, part, group, answering);
  if (withheld) return withheld.outcome === 'trouble' ? withheld : undefined;
  return takeAsText(keys, part, group, answering);
}

/** `left hind lateral off`: several words or phrases that each fit a key, the longest first; undefined where one does not. */
function phrasesOf(
  keys: Keys,
  words: readonly string[],
  group: Readonly<Record<string, unknown>>,
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
function takeWithheld(
  keys: Keys,
  part: string,
  group: Record<string, unknown>,
  answering: Answering,
): Answer | undefined {
  const said = /^(?:(?<none>no|nil|zero|0) )?(?<what>[a-z]+)(?: withdrawal| withheld)?(?::?\s+(?<count>\S+?) ?(?<unit>[a-z]+)?)?$/i.exec(part)?.groups; // prettier-ignore
  const what = said?.['what']?.toLowerCase() ?? '';
  const fitting = [...keys.keys()].filter((key) => key.startsWith(`${what}-`) && /-(?:days|hours|milkings)$/.test(key)); // prettier-ignore
  if (fitting.length === 0) return undefined;
  const count = said!['none'] ?? said!['count'] ?? '';
  const none = /^(?:no|nil|none|zero|0)$/i.test(count);
  const unit = (said!['unit'] ?? '').toLowerCase();
  const [key, ...more] = fitting.filter((one) => unit === '' || one.startsWith(`${what}-${unit}`));
  if (key === undefined || (more.length > 0 && !none) || (!none && !/^\d+$/.test(count)))
    return wronglyPut(answering, 'withheld', { found: part, keys: inRow('or', fitting), key: fitting[0]! });
  return take(key, keys.get(key)!.wanted, none ? '0' : count, group, answering) ?? value(count);
}

/** Keys whose closed list holds the word; those that hold it whole go before those it only begins a word of. */
function fittingKeys(
  keys: Keys,
  part: string,
  group: Readonly<Record<string, unknown>>,
  answering: Answering,
): [string, WantedKey][] {
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

function takeAsText(
  keys: Keys,
  part: string,
  group: Record<string, unknown>,
  answering: Answering,
): Answer | undefined {
  const required = [...keys].filter(([, { wanted, required: needed }]) => needed && isText(wanted));
  const texts = required.length > 0 ? required : [...keys].filter(([, { wanted }]) => isText(wanted));
  const [only] = texts;
  const quoted = part.startsWith('"');
  const begun = only && texts.length === 1 && required.length > 0 ? group[only[0]] : undefined;
  if (only && typeof begun === 'string') {
    group[only[0]] = `${begun}, ${part}`;
    return undefined;
  }
  const [first = ''] = part.split(/\s/);
  const words = [...keys].flatMap(([, { wanted }]) => (wanted.kind === 'word' ? wanted.words : []));
  const near = nearestWord(first, [...keys.keys(), ...words]);
  if (only && texts.length === 1 && !Object.hasOwn(group, only[0]) && (quoted || required.length > 0))
    return take(only[0], only[1].wanted, part, group, answering);
  const word = near ?? nearestWord(part, words);
  if (/^\d+$/.test(part)) return wronglyPut(answering, 'lone-number', { found: part });
  const values = { found: part, keys: inRow('or', keys.keys()) };
  return word === undefined
    ? wronglyPut(answering, 'no-key', values)
    : wronglyPut(answering, 'no-key-near', { ...values, meant: word });
}

function isText({ kind }: Wanted): boolean {
  return kind === 'text' || kind === 'free-text';
}

function take(
  key: string,
  wanted: Wanted,
  text: string,
  group: Record<string, unknown>,
  answering: Answering,
): Answer | undefined {
  const parts = wanted.kind === 'list' ? text.replaceAll(/\s*\+\s*/g, ',') : text;
  const read = readInner(wanted, parts, nestedIn(answering, key));
  if (read.outcome === 'trouble') return read;
  const before = group[key];
  if (Array.isArray(before) && Array.isArray(read.value)) {
    group[key] = [...(before as unknown[]), ...(read.value as unknown[])];
    return undefined;
  }
  if (before !== undefined) return wronglyPut(answering, 'given-twice', { key });
  group[key] = read.value;
  return undefined;
}

/** A list of groups takes one entry each time its key is given: `does wrap off + on 2026-03-06`. */
function readInner(wanted: Wanted, text: string, answering: Answering): Answer {
  if (wanted.kind !== 'list' || wanted.of.kind !== 'group') return readAnswer(wanted, text, answering);
  const entry = readGroup(wanted.of.keys, text, answering);
  return entry.outcome === 'value' ? value([entry.value]) : entry;
}

import { z } from 'zod';
import { placesOf } from '../record/key.js';
import { lesionCodes } from '../record/words.js';
import { lesionKinds } from '../reference/lesions.js';
import { readShared } from '../reference/read-shared.js';
import type { Token } from './token.js';

const words = z.array(z.string().min(1));
const meanings = z.record(z.string(), z.record(z.string(), words));
const numbers = z.record(z.string(), words);

/**
 * The words of notes from the yard: each meaning with all it may be called.
 *
 * Source:  shared/note-words.json
 * Checked: tests/note/note-words.test.ts
 */
export const noteWords = readShared(
  'note-words.json',
  z.strictObject({
    about: z.string(),
    /** Looked for anywhere: kind → meaning → words. A word may be of several kinds. */
    phrases: meanings,
    /** Words that say nothing by themselves and need not be kept. */
    fillers: words,
    'inner-fillers': words,
    /** Words that are spelled well, though near one of ours. */
    'well-spelled': words,
    /** Small words a statement is read by, in lists of their own: they are no phrases and mean nothing alone. */
    small: numbers,
    ordinals: numbers,
    numbers,
    'score-words': numbers,
    units: z.record(z.enum(['mm', 'cm', 'in', 'kg', 'lb']), words),
    parts: numbers,
    times: words,
    over: words,
    mail: z.strictObject({ headers: words, 'sent-from': words }),
  }),
);

/** A list of words turned round: word → what it stands for. */
export function turned<T>(
  table: Readonly<Record<string, readonly string[]>>,
  as: (key: string) => T,
): ReadonlyMap<string, T> {
  return new Map(Object.entries(table).flatMap(([key, said]) => said.map((word) => [word, as(key)])));
}

/** Keys of a group that a word alone says, with the kind of the word and what it is said of. */
export function saidByWord(
  schema: z.ZodType,
): { readonly key: string; readonly kind: string; readonly of: readonly string[] }[] {
  return Object.entries(placesOf(schema)).flatMap(([key, { noted }]) => {
    const [kind, of] = noted?.split(' of ') ?? [];
    return kind !== undefined && of !== undefined ? [{ key, kind, of: of.split(', ') }] : [];
  });
}

/** `yes` and `no` as true and false; any other meaning is the value itself. */
export function flagSaid(meaning: string): boolean | string {
  return meaning === 'yes' ? true : meaning === 'no' ? false : meaning;
}

/** The kinds a stretch of words may be of, each with its meaning. */
export interface Phrase {
  readonly is: ReadonlyMap<string, string>;
  /** The first token after it. */
  readonly next: number;
}

interface Entry {
  readonly kind: string;
  readonly value: string;
  readonly words: readonly string[];
}

const innerFillers = new Set(noteWords['inner-fillers']);
const fillers = new Set(noteWords.fillers);
const wellSpelled = new Set(noteWords['well-spelled']);
const dictionary = new Map<string, Entry[]>();
const known = new Set<string>(Object.values(noteWords.fillers));
for (const [kind, values] of Object.entries(noteWords.phrases))
  for (const [value, said] of Object.entries(values)) for (const phrase of said) enter(kind, value, phrase);
// Every kind of lesion may be called by its full name.
for (const code of lesionCodes)
  enter('lesion', code, lesionKinds[code].name.replaceAll(/[^a-z]+/g, ' ').trim());
for (const list of dictionary.values()) list.sort((a, b) => b.words.length - a.words.length);
for (const table of [noteWords.numbers, noteWords.ordinals, noteWords.units, noteWords.parts])
  for (const word of Object.values(table).flat()) known.add(word);
function enter(kind: string, value: string, phrase: string): void {
  const parts = phrase.split(' ');
  for (const word of parts) known.add(word);
  const list = dictionary.get(parts[0]!) ?? [];
  dictionary.set(parts[0]!, list);
  list.push({ kind, value, words: parts });
}

const small = new Map(Object.entries(noteWords.small).map(([list, said]) => [list, new Set(said)]));

/** Whether a word is in one of the lists of small words. */
export function isOne(list: string, bare: string | undefined): boolean {
  return bare !== undefined && small.get(list)!.has(bare);
}

export const isFiller = (word: string): boolean => fillers.has(word);
/** Whether a word is anywhere in the vocabulary. */
export const isKnown = (word: string): boolean => known.has(word);

/** Kinds whose words are worth righting: a small word wrongly righted would turn a sentence round. */
const trade = new Set(['foot', 'side', 'claw', 'lesion', 'site', 'mark', 'length', 'stage', 'state', 'top-found', 'tool', 'sign', 'block', 'wrap', 'fixture-verb', 'material', 'gait', 'condition', 'weight', 'trimmed', 'pain', 'recheck', 'carrying', 'claw-state', 'infected', 'event', 'weekday', 'vet-noun', 'tools-disinfected', 'cow', 'missed', 'correct', 'negation', 'farm-noun']); // prettier-ignore
const tradeWords = new Set([
  ...[...dictionary.values()].flatMap((list) =>
    list.flatMap(({ kind, words: all }) => (trade.has(kind) ? all : [])),
  ),
  ...[noteWords.numbers, noteWords.ordinals, noteWords.parts, noteWords.units].flatMap((table) =>
    Object.values(table).flat(),
  ),
]);
function isOfTrade(word: string): boolean {
  return tradeWords.has(word) && !fillers.has(word);
}

/** One word and its plural, its past or whoever does it: no slip, but another word. */
function isForm(word: string, other: string): boolean {
  const [short, long] = word.length < other.length ? [word, other] : [other, word];
  return long.startsWith(short) && /^(?:s|es|d|ed|r|er|y|ly|n|ing)$/.test(long.slice(short.length));
}

/** By first letter, since that is seldom mistyped: the words a misspelled one may be. */
const byLetter = new Map<string, string[]>();
for (const word of known)
  if (word.length >= 4 && isOfTrade(word)) byLetter.set(word[0]!, [...(byLetter.get(word[0]!) ?? []), word]);
/** What a word for a number counts, so that two spellings of one number are one. */
const counts = turned({ ...noteWords.numbers }, (value) => `number ${value}`);
const corrected = new Map<string, string>();

/** A word as the vocabulary spells it, where it is one or two slips from just one of its words; else itself. */
export function spelled(word: string): string {
  if (word.length < 4 || word.length > 16 || known.has(word) || wellSpelled.has(word)) return word;
  const before = corrected.get(word);
  if (before !== undefined) return before;
  const most = word.length >= 8 ? 2 : 1;
  let best: string[] = [];
  let least = most + 1;
  for (const candidate of byLetter.get(word[0]!) ?? []) {
    if (Math.abs(candidate.length - word.length) > most) continue;
    if (word.length === 4 ? candidate.length !== 5 : candidate.length === 4 && word.length !== 5) continue;
    if (isForm(word, candidate)) continue;
    const slips = slipsBetween(word, candidate, most);
    if (slips < least) {
      least = slips;
      best = [candidate];
    } else if (slips === least && slips <= most) best.push(candidate);
  }
  // Several as near as each other are one where they mean the same.
  const meant = new Set(
    best.map((one) => {
      const entry = (dictionary.get(one) ?? []).find(({ words: all }) => all.length === 1);
      return entry ? `${entry.kind} ${entry.value}` : (counts.get(one) ?? one);
    }),
  );
  const right = best.length > 0 && meant.size === 1 && least <= most ? best[0]! : word;
  if (corrected.size < 5000) corrected.set(word, right);
  return right;
}

/** Letters left out, put in, changed, or two neighbours exchanged; more than `most` is not counted on. */
export function slipsBetween(one: string, other: string, most: number): number {
  let [before, last] = [[] as number[], Array.from({ length: other.length + 1 }, (_, n) => n)];
  for (let i = 1; i <= one.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= other.length; j += 1) {
      const same = one[i - 1] === other[j - 1];
      let slips = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1])
        slips = Math.min(slips, before[j - 2]! + 1);
      row.push(slips);
    }
    if (row.every((slips) => slips > most)) return most + 1;
    [before, last] = [last, row];
  }
  return last[other.length]!;
}

/** Words of the vocabulary that this exact spelling must have: codes that are English words or units in small letters. */
const capitalsOnly = new Set(['cc', 'sc', 'cd', 'ac', 'ds', 'ts', 'sw', 'ip', 'id']);

/**
 * The longest phrase that begins at a token, with every kind it may be of; undefined where none does.
 *
 * Inside a phrase a hyphen, a stroke or a dot counts as a space, and `the`, `her` and the like are passed over.
 */
export function phraseAt(tokens: readonly Token[], at: number): Phrase | undefined {
  const first = tokens[at];
  if (first?.kind !== 'word') return undefined;
  const is = new Map<string, string>();
  let next = at;
  for (const { kind, value, words: parts } of dictionary.get(heard(first)) ?? []) {
    const end = endOf(tokens, at, parts);
    if (end === undefined || end < next) continue;
    if (capitalsOnly.has(first.bare) && parts.length === 1 && first.text !== first.text.toUpperCase())
      continue;
    if (end > next) is.clear();
    next = end;
    if (!is.has(kind)) is.set(kind, value);
  }
  return next === at ? undefined : { is, next };
}

/** A word as the vocabulary spells it, without the `'s` of `the growth's the same` or `farmer's going to`. */
export function heard({ text, bare }: Token): string {
  const stem = /['’]s$/i.test(text) && !known.has(bare) ? bare.slice(0, -1) : bare;
  return known.has(stem) ? stem : spelled(bare);
}

function endOf(tokens: readonly Token[], at: number, parts: readonly string[]): number | undefined {
  let next = at + 1;
  for (let word = 1; word < parts.length; word += 1) {
    while (joins(tokens, next) || (tokens[next] && isPassed(tokens[next]!, parts[word]!))) next += 1;
    const token = tokens[next];
    if (token === undefined || token.kind === 'quoted') return undefined;
    if (token.bare !== parts[word] && heard(token) !== parts[word]) return undefined;
    next += 1;
  }
  // A dot that belongs to the last letter of an abbreviation: n.p.
  const short = parts.length > 1 && parts.every((word) => word.length === 1);
  return short && tokens[next]?.text === '.' && tokens[next]!.from === tokens[next - 1]!.to && tokens[next - 2]?.text === '.'
    ? next + 1
    : next; // prettier-ignore
}

function isPassed(token: Token, wanted: string): boolean {
  return token.kind === 'word' && token.bare !== wanted && innerFillers.has(token.bare);
}

/** A hyphen, a stroke or a dot glued between two words. */
function joins(tokens: readonly Token[], at: number): boolean {
  const token = tokens[at];
  return (
    token !== undefined &&
    /^[-–/.]$/.test(token.text) &&
    tokens[at - 1]?.to === token.from &&
    tokens[at + 1]?.from === token.to
  );
}

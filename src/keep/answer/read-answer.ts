import { explainValue, fewWords } from '../../casefile/explain/explain-value.js';
import { decimalDigits } from '../../casefile/plain-scalar.js';
import type { Wanted } from '../../casefile/wanted.js';
import { inRow } from '../../problem/message.js';
import { messageWords, type Values } from '../../reference/words.js';
import { type CalendarDay, addDays, calendarDay } from '../../record/calendar-day.js';

/** An answer as somebody typed it, under a key of the case format: the value a file would hold, or what is wrong with it. */
export type Answer =
  | { readonly outcome: 'value'; readonly value: unknown }
  /** What was found and what is expected, whole; `meant`: where a part of the answer may be several things, which. */
  | {
      readonly outcome: 'trouble';
      readonly message: string;
      readonly meant?: { readonly part: string; readonly ways: readonly string[] };
    };

/** How people say days, words of closed lists and lengths; without it they are taken only as a file has them. */
export interface Speech {
  /** The days a text may mean, the likelier first: the latest not after `from`, or where it lies ahead the next. */
  readonly days: (text: string, from: CalendarDay, ahead: boolean) => readonly CalendarDay[];
  /** Those of the words a text may stand for. */
  readonly words: (words: readonly string[], text: string) => readonly string[];
  /** A number in its unit; undefined where it is told in another or is none. */
  readonly number: (text: string, unit: string | undefined) => number | undefined;
}

/** What an answer is read with. */
export interface Answering {
  /** `4 weeks` and `10 days` count from this day. */
  readonly from: CalendarDay;
  /** Words of closed lists may be typed by their first letters: at a terminal, where what they mean is asked at once. */
  readonly byFirstLetters?: true;
  readonly speech?: Speech;
  /** What a message calls the answer: `--gait`, `found.a.top`. */
  readonly name?: string;
}

export const value = (of: unknown): Answer => ({ outcome: 'value', value: of });

/** Why an answer is not to be taken, in the words for the same value in a case file. */
function unlike(
  wanted: Wanted,
  text: string | number,
  { name = messageWords().say('place.answer'), speech }: Pick<Answering, 'name' | 'speech'>,
): Answer {
  const isDay = wanted.kind.startsWith('day');
  if (isDay && speech && !/^\d{4}-/.test(String(text)))
    return { outcome: 'trouble', message: messageWords().say('answer.no-day', { name, found: text }) };
  const { message, mend } = explainValue(name, wanted, text);
  const isLong = wanted.kind === 'word' && wanted.words.length > fewWords;
  const more = isLong ? 'long-list' : isDay ? 'day-to-come' : undefined;
  return {
    outcome: 'trouble',
    message: more === undefined ? message : messageWords().say(`answer.${more}`, { message, mend }),
  };
}

/** What is wrong with how an answer is put, by its key under `answer`. */
export function wronglyPut(
  { name }: Pick<Answering, 'name'>,
  key: string,
  values: Values,
): Extract<Answer, { outcome: 'trouble' }> {
  const says = messageWords().say(`answer.${key}`, values);
  const message = name === undefined ? says : messageWords().say('row.of', { of: name, says });
  return { outcome: 'trouble', message };
}

/** The same answering of a part, which its key or name is put behind. */
export function nestedIn(answering: Answering, part: string): Answering {
  return { ...answering, name: answering.name === undefined ? part : `${answering.name}.${part}` };
}

/**
 * An answer of one word, number, day or text, or of several with commas between them.
 *
 * Words of a closed list are taken in any capitals; nothing else is guessed. Groups are read by `readGroup`.
 *
 * Checked: tests/keep/answers.test.ts
 * @example readAnswer({ kind: 'word', words: ['inner', 'outer'] }, 'Outer', { from: '2026-01-06' }) // → { outcome: 'value', value: 'outer' }
 */
export function readAnswer(wanted: Wanted, typed: string, answering: Answering): Answer {
  const text = typed.trim();
  switch (wanted.kind) {
    case 'word':
      return word(wanted, text, answering);
    case 'number':
      return number(wanted, text, answering);
    case 'version':
      return decimalDigits.test(text) ? value(Number(text)) : unlike(wanted, text, answering);
    case 'yes-no':
      return yesNo(text) ?? unlike(wanted, text, answering);
    case 'day':
      return day(wanted, text, answering) ?? unlike(wanted, text, answering);
    case 'day-or-unknown':
      return text === 'unknown'
        ? value(text)
        : (day(wanted, text, answering) ?? unlike(wanted, text, answering));
    case 'list':
      return list(wanted.of, text, answering);
    case 'either':
      return either(wanted.forms, text, answering);
    case 'group':
    case 'named':
      return unlike(wanted, text, answering);
    default:
      return text === '' ? unlike(wanted, text, answering) : value(unquoted(text));
  }
}

/** A word of a closed list, written like it or in other capitals. */
function word(wanted: Extract<Wanted, { kind: 'word' }>, text: string, answering: Answering): Answer {
  const meant = wordsMeant(wanted.words, text, answering);
  if (meant.length > 1) return several(answering, 'several-words', text, meant);
  return meant.length === 1 ? value(meant[0]) : unlike(wanted, text, answering);
}

/** One of several things is meant. */
function several(
  answering: Pick<Answering, 'name'>,
  key: string,
  part: string,
  ways: readonly string[],
): Answer {
  const wrong = wronglyPut(answering, key, { found: part, ways: inRow('or', ways) });
  return { ...wrong, meant: { part, ways } };
}

/** The words of a closed list that a text may stand for. */
export function wordsMeant(
  words: readonly string[],
  text: string,
  { byFirstLetters, speech }: Pick<Answering, 'byFirstLetters' | 'speech'>,
): readonly string[] {
  const typed = text.toLowerCase();
  // A key of two words is said without its hyphen: `pain relief`.
  const same = words.find((one) => [one.toLowerCase(), one.replaceAll('-', ' ')].includes(typed));
  if (same !== undefined) return [same];
  const said = speech?.words(words, typed) ?? [];
  if (said.length > 0) return said;
  return byFirstLetters && typed !== '' ? words.filter((one) => one.toLowerCase().startsWith(typed)) : [];
}

function number(wanted: Extract<Wanted, { kind: 'number' }>, text: string, answering: Answering): Answer {
  const said = decimalDigits.test(text) ? Number(text) : answering.speech?.number(text, wanted.unit);
  if (said === undefined) return unlike(wanted, text, answering);
  return said > (wanted.most ?? said) ? unlike(wanted, said, answering) : value(said);
}

function yesNo(text: string): Answer | undefined {
  const said = text.toLowerCase();
  if (['yes', 'y', 'true', ''].includes(said)) return value(true);
  return ['no', 'n', 'false'].includes(said) ? value(false) : undefined;
}

function day(
  { ahead = false }: { readonly ahead?: boolean },
  text: string,
  answering: Answering,
): Answer | undefined {
  const { from, speech } = answering;
  if (calendarDay.safeParse(text).success) return value(text);
  const [, count, unit] = /^(\d{1,3}) ?(weeks?|w|days?|d)$/i.exec(text) ?? [];
  if (count !== undefined && unit !== undefined)
    return value(addDays(from, Number(count) * (unit.toLowerCase().startsWith('w') ? 7 : 1)));
  const [only, ...more] = speech?.days(text, from, ahead) ?? [];
  if (only === undefined) return undefined;
  return more.length === 0 ? value(only) : several(answering, 'several-days', text, [only, ...more]);
}

function list(of: Wanted, text: string, answering: Answering): Answer {
  const values: unknown[] = [];
  for (const part of text === '' ? [] : text.split(',')) {
    const one = readAnswer(of, part, answering);
    if (one.outcome === 'trouble') return one;
    values.push(one.value);
  }
  return value(values);
}

/** Of several forms a single answer may take: the first it fits. */
function either(forms: readonly Wanted[], text: string, answering: Answering): Answer {
  const read = forms.map((form) => readAnswer(form, text, answering));
  return read.find(({ outcome }) => outcome === 'value') ?? read[0]!;
}

/** Text in straight quotes, without them; within, `\"` is a quote and `\\` a backslash. */
export function unquoted(text: string): string {
  const [, inner] = /^"([^]*)"$/.exec(text) ?? [];
  return inner === undefined ? text : inner.replaceAll(/\\(["\\])/g, '$1');
}

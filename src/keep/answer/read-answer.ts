import { explainValue, fewWords } from '../../casefile/explain/explain-value.js';
import { decimalDigits } from '../../casefile/plain-scalar.js';
import type { Wanted } from '../../casefile/wanted.js';
import { given } from '../../record/given.js';
import { inRow } from '../../problem/message.js';
import { messageWords, type Values } from '../../reference/words.js';
import { type CalendarDay, addDays, calendarDay } from '../../record/calendar-day.js';

/** An answer as somebody typed it, under a key of the case format: the value a file would hold, or what is wrong with it. */
export type Answer =
  | { readonly outcome: 'value'; readonly value: unknown }
  /** What was found and what is expected, whole; `meant`: where a part of the answer may be several things, which. */
  | { readonly outcome: 'trouble'; readonly message: string; readonly meant?: Meant };

interface Meant {
  readonly part: string;
  readonly ways: readonly string[];
}

/** How people say days, words of closed lists and lengths; without it they are taken only as a file has them. */
export interface Speech {
  /** The days a text may mean, the likelier first: the latest not after `from`, or where it lies ahead the next. */
  readonly days: (text: string, from: CalendarDay, ahead: boolean) => readonly CalendarDay[];
  /** Those of the words a text may stand for. */
  readonly words: (words: readonly string[], text: string) => readonly string[];
  /** A number in its unit; undefined where it is reported in another or is none. */
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

/** What is wrong with an answer: thrown within a reading, told by `answered`. */
class Wrong extends Error {
  constructor(
    message: string,
    readonly meant?: Meant,
  ) {
    super(message);
  }
}

/** What a reading came to. */
export function answered(read: () => unknown): Answer {
  try {
    return { outcome: 'value', value: read() };
  } catch (error) {
    if (!(error instanceof Wrong)) throw error;
    return { outcome: 'trouble', message: error.message, ...given({ meant: error.meant }) };
  }
}

/** Why an answer is not to be taken, in the words for the same value in a case file. */
function unlike(
  wanted: Wanted,
  found: string | number,
  { name = messageWords().say('place.answer'), speech }: Pick<Answering, 'name' | 'speech'>,
): never {
  const isDay = wanted.kind.startsWith('day');
  if (isDay && speech && !/^\d{4}-/.test(String(found)))
    throw new Wrong(messageWords().say('answer.no-day', { name, found }));
  const { message, mend } = explainValue(name, wanted, found);
  const isLong = wanted.kind === 'word' && wanted.words.length > fewWords;
  const more = isLong ? 'long-list' : isDay ? 'day-to-come' : undefined;
  throw new Wrong(more === undefined ? message : messageWords().say(`answer.${more}`, { message, mend }));
}

/** What is wrong with how an answer is put, by its key under `answer`. */
export function wronglyPut(
  { name }: Pick<Answering, 'name'>,
  key: string,
  values: Values,
  meant?: Meant,
): never {
  const says = messageWords().say(`answer.${key}`, values);
  throw new Wrong(name === undefined ? says : messageWords().say('row.of', { of: name, says }), meant);
}

/** The same answering of a part, which its key or name is put behind. */
export function nestedIn(answering: Answering, part: string): Answering {
  return { ...answering, name: answering.name === undefined ? part : `${answering.name}.${part}` };
}

/**
 * An answer of one word, number, day or text, or of several with commas between them.
 *
 * Words of a closed list are taken in any capitals; nothing else is guessed. Groups are read by `readAnswers`.
 *
 * Checked: tests/keep/answers.test.ts
 * @example readAnswer({ kind: 'word', words: ['inner', 'outer'] }, 'Outer', { from: '2026-01-06' }) // → { outcome: 'value', value: 'outer' }
 */
export function readAnswer(wanted: Wanted, typed: string, answering: Answering): Answer {
  return answered(() => typedValue(wanted, typed, answering));
}

export function typedValue(wanted: Wanted, typed: string, answering: Answering): unknown {
  const text = typed.trim();
  switch (wanted.kind) {
    case 'word': {
      const meant = wordsMeant(wanted.words, text, answering);
      if (meant.length > 1) return several(answering, 'several-words', text, meant);
      return meant[0] ?? unlike(wanted, text, answering);
    }
    case 'number': {
      const said = decimalDigits.test(text) ? Number(text) : answering.speech?.number(text, wanted.unit);
      if (said === undefined || said > (wanted.most ?? said)) unlike(wanted, said ?? text, answering);
      return said;
    }
    case 'version':
      return decimalDigits.test(text) ? Number(text) : unlike(wanted, text, answering);
    case 'yes-no': {
      const said = text.toLowerCase();
      if (['yes', 'y', 'true', ''].includes(said)) return true;
      return ['no', 'n', 'false'].includes(said) ? false : unlike(wanted, text, answering);
    }
    case 'day':
    case 'day-or-unknown':
      if (wanted.kind === 'day-or-unknown' && text === 'unknown') return text;
      return day(wanted, text, answering) ?? unlike(wanted, text, answering);
    case 'list':
      return text === '' ? [] : text.split(',').map((part) => typedValue(wanted.of, part, answering));
    case 'either': {
      // The first of its forms that it fits.
      const read = wanted.forms.map((form) => readAnswer(form, text, answering));
      const fitting = read.find(({ outcome }) => outcome === 'value') ?? read[0]!;
      if (fitting.outcome === 'value') return fitting.value;
      throw new Wrong(fitting.message, fitting.meant);
    }
    case 'group':
    case 'named':
      return unlike(wanted, text, answering);
    default:
      return text === '' ? unlike(wanted, text, answering) : unquoted(text);
  }
}

/** One of several things is meant. */
function several(answering: Answering, key: string, part: string, ways: readonly string[]): never {
  return wronglyPut(answering, key, { found: part, ways: inRow('or', ways) }, { part, ways });
}

/** The words of a closed list that a text may stand for, in any capitals. */
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

function day(
  { ahead = false }: { readonly ahead?: boolean },
  text: string,
  answering: Answering,
): CalendarDay | undefined {
  const { from, speech } = answering;
  if (calendarDay.safeParse(text).success) return text;
  const [, count, unit] = /^(\d{1,3}) ?(weeks?|w|days?|d)$/i.exec(text) ?? [];
  if (count !== undefined && unit !== undefined)
    return addDays(from, Number(count) * (unit.toLowerCase().startsWith('w') ? 7 : 1));
  const days = speech?.days(text, from, ahead) ?? [];
  return days.length > 1 ? several(answering, 'several-days', text, days) : days[0];
}

/** Text in straight quotes, without them; within, `\"` is a quote and `\\` a backslash. */
function unquoted(text: string): string {
  const [, inner] = /^"([^]*)"$/.exec(text) ?? [];
  return inner === undefined ? text : inner.replaceAll(/\\(["\\])/g, '$1');
}

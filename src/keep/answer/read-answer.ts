import { nearestWord } from '../../casefile/nearest-word.js';
import { decimalDigits } from '../../casefile/parse-yaml.js';
import type { Wanted } from '../../casefile/wanted.js';
import { type CalendarDay, addDays, calendarDay } from '../../record/calendar-day.js';

/** An answer as somebody typed it, under a key of the case format: the value a file would hold, or what is wrong with it. */
export type Answer =
  | { readonly outcome: 'value'; readonly value: unknown }
  /** What was found and what is expected, without the name of the key. */
  | { readonly outcome: 'trouble'; readonly message: string };

/** What an answer is read with. */
export interface Answering {
  /** `4 weeks` and `10 days` count from this day. */
  readonly from: CalendarDay;
  /** Words of closed lists may be typed by their first letters: at a terminal, where what they mean is asked at once. */
  readonly byFirstLetters?: true;
}

export const value = (of: unknown): Answer => ({ outcome: 'value', value: of });
export const trouble = (message: string): Answer => ({ outcome: 'trouble', message });

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
      return word(wanted.words, text, answering);
    case 'number':
    case 'version':
      return decimalDigits.test(text) ? value(Number(text)) : trouble(noNumber(text));
    case 'yes-no':
      return yesNo(text);
    case 'day':
      return day(text, answering);
    case 'day-or-unknown':
      return text === 'unknown' ? value(text) : day(text, answering);
    case 'list':
      return list(wanted.of, text, answering);
    case 'either':
      return either(wanted.forms, text, answering);
    case 'group':
    case 'named':
      return trouble(`\`${text}\`, expected keys and values`);
    default:
      return text === '' ? trouble('nothing, expected some text') : value(unquoted(text));
  }
}

/** A word of a closed list, written like it or in other capitals. */
function word(words: readonly string[], text: string, answering: Answering): Answer {
  const [meant, ...more] = wordsMeant(words, text, answering);
  if (meant !== undefined && more.length === 0) return value(meant);
  if (meant !== undefined)
    return trouble(`\`${text}\` may be ${oneOf([meant, ...more])}, expected more letters`);
  const near = nearestWord(text, words);
  return trouble(
    `\`${text}\`, expected ${oneOf(words)}${near === undefined ? '' : `: did you mean \`${near}\`?`}`,
  );
}

/** The words of a closed list that a text may stand for. */
export function wordsMeant(
  words: readonly string[],
  text: string,
  { byFirstLetters }: Pick<Answering, 'byFirstLetters'>,
): readonly string[] {
  const typed = text.toLowerCase();
  const same = words.find((one) => one.toLowerCase() === typed);
  if (same !== undefined) return [same];
  return byFirstLetters && typed !== '' ? words.filter((one) => one.toLowerCase().startsWith(typed)) : [];
}

function noNumber(text: string): string {
  return /^\d+,\d{1,2}$/.test(text)
    ? `\`${text}\`, expected a decimal point, such as ${text.replace(',', '.')}`
    : `\`${text}\`, expected a number such as 21 or 21.5, with a point and without a unit`;
}

function yesNo(text: string): Answer {
  const said = text.toLowerCase();
  if (['yes', 'y', 'true', ''].includes(said)) return value(true);
  return ['no', 'n', 'false'].includes(said) ? value(false) : trouble(`\`${text}\`, expected yes or no`);
}

function day(text: string, { from }: Answering): Answer {
  if (calendarDay.safeParse(text).success) return value(text);
  const [, count, unit] = /^(\d{1,3}) ?(weeks?|w|days?|d)$/i.exec(text) ?? [];
  if (count !== undefined && unit !== undefined)
    return value(addDays(from, Number(count) * (unit.toLowerCase().startsWith('w') ? 7 : 1)));
  return trouble(
    `\`${text}\`, expected a day that exists, such as 2026-02-03; a day to come may be told as 4 weeks`,
  );
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
  return read.find(({ outcome }) => outcome === 'value') ?? read[0] ?? trouble(`\`${text}\``);
}

/** Text in straight quotes, without them; within, `\"` is a quote and `\\` a backslash. */
export function unquoted(text: string): string {
  const [, inner] = /^"([^]*)"$/.exec(text) ?? [];
  return inner === undefined ? text : inner.replaceAll(/\\(["\\])/g, '$1');
}

export function oneOf(words: readonly string[]): string {
  return words.length === 1 ? `${words[0]}` : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

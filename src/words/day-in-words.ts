import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from './words.js';

/**
 * A day with its month in letters, in the order of the language.
 * @example dayInWords(wordsOf('en-GB'), '2026-06-02') // → '2 June 2026'
 * @example dayInWords(wordsOf('en-US'), '2026-06-02') // → 'June 2, 2026'
 */
export function dayInWords(words: Words, day: CalendarDay): string {
  return remembered(words, 'day', day) ?? keep(words, 'day', day, dayParts(words, day, 'month'));
}

/** The same with the month cut short and no year, for narrow places. @example dayInShort(wordsOf('en-GB'), '2026-06-02') // → '2 Jun' */
export function dayInShort(words: Words, day: CalendarDay): string {
  return (
    remembered(words, 'short-day', day) ?? keep(words, 'short-day', day, dayParts(words, day, 'short-month'))
  );
}

/** Days once worded, by language: a drawing says the same few again and again, and the format has but so many. */
const worded = new WeakMap<Words, Record<'day' | 'short-day', Map<CalendarDay, string>>>();

function remembered(words: Words, key: 'day' | 'short-day', day: CalendarDay): string | undefined {
  return worded.get(words)?.[key].get(day);
}

function keep(
  words: Words,
  key: 'day' | 'short-day',
  day: CalendarDay,
  parts: ReturnType<typeof dayParts>,
): string {
  const text = words.say(`calendar.${key}`, parts);
  const known = worded.get(words) ?? {
    day: new Map<string, string>(),
    'short-day': new Map<string, string>(),
  };
  worded.set(words, known);
  known[key].set(day, text);
  return text;
}

/** Day, month and year as the `calendar` strings of `shared/words/LANGUAGE.json` take them. */
export function dayParts(words: Words, day: CalendarDay, month: 'month' | 'short-month') {
  return {
    day: Number(day.slice(8, 10)),
    month: words.say(`calendar.${month}.${day.slice(5, 7)}`),
    year: day.slice(0, 4),
  };
}

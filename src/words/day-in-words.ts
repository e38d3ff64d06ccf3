import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from './words.js';

/**
 * A day with its month in letters, in the order of the language.
 * @example dayInWords(wordsOf('en-GB'), '2026-06-02') // → '2 June 2026'
 * @example dayInWords(wordsOf('en-US'), '2026-06-02') // → 'June 2, 2026'
 */
export function dayInWords(words: Words, day: CalendarDay): string {
  return words.say('calendar.day', dayParts(words, day, 'month'));
}

/** The same with the month cut short and no year, for narrow places. @example dayInShort(wordsOf('en-GB'), '2026-06-02') // → '2 Jun' */
export function dayInShort(words: Words, day: CalendarDay): string {
  return words.say('calendar.short-day', dayParts(words, day, 'short-month'));
}

/** Day, month and year as the strings of `shared/words/LANGUAGE/calendar.json` take them. */
export function dayParts(words: Words, day: CalendarDay, month: 'month' | 'short-month') {
  return {
    day: Number(day.slice(8, 10)),
    month: words.say(`calendar.${month}.${day.slice(5, 7)}`),
    year: day.slice(0, 4),
  };
}

import { type CalendarDay, dayNumber } from '../record/calendar-day.js';
import { dayParts } from './day-in-words.js';
import type { Words } from './words.js';

/** 1 January 1970 was a Thursday. */
const weekdayOf = (day: CalendarDay): number => (dayNumber(day) + 4) % 7;

/**
 * A day as it is planned by: with its day of the week, and the year only where it is not the book's own.
 *
 * Valid:   days from 1970 on
 * @example planDay(wordsOf('en-GB'), '2026-06-23', '2026-06-16') // → 'Tue 23 June'
 * @example planDay(wordsOf('en-US'), '2027-01-05', '2026-06-16') // → 'Tue, January 5, 2027'
 */
export function planDay(words: Words, day: CalendarDay, today: CalendarDay): string {
  const sameYear = day.slice(0, 4) === today.slice(0, 4);
  return words.say(`calendar.plan-day${sameYear ? '' : '-year'}`, {
    ...dayParts(words, day, 'month'),
    weekday: words.say(`calendar.weekday.${weekdayOf(day)}`),
  });
}

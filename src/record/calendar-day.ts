import { z } from 'zod';

/** A day as written in the files, `YYYY-MM-DD`, a day that exists. Days sort as text. */
export type CalendarDay = string;

/** Accepts days that exist, from 1900 to 2199: `2026-02-28` yes, `2026-02-30` no, `0026-02-28` no. */
export const calendarDay = z.iso.date().refine((day) => /^(?:19|20|21)/.test(day));

/** The first and the last day of the case format. */
export const firstCalendarDay: CalendarDay = '1900-01-01';
export const lastCalendarDay: CalendarDay = '2199-12-31';

const millisecondsPerDay = 86_400_000;

/** Whole days since 1970-01-01, for sums. @example dayNumber('1970-01-02') // → 1 */
export function dayNumber(day: CalendarDay): number {
  const known = numbers.get(day);
  if (known !== undefined) return known;
  const number = Date.UTC(Number(day.slice(0, 4)), Number(day.slice(5, 7)) - 1, Number(day.slice(8, 10)));
  if (Number.isNaN(number)) throw new RangeError(`not a calendar day: ${day}`);
  numbers.set(day, number / millisecondsPerDay);
  return number / millisecondsPerDay;
}

/** Days once read, as numbers: the same few are asked for again and again, and the format has but so many. */
const numbers = new Map<CalendarDay, number>();

/** The day of a day number. @example calendarDayOf(1) // → '1970-01-02' */
export function calendarDayOf(number: number): CalendarDay {
  return new Date(number * millisecondsPerDay).toISOString().slice(0, 10);
}

/** Days from one day to a later one; negative the other way. @example daysBetween('2026-02-28', '2026-03-01') // → 1 */
export function daysBetween(from: CalendarDay, to: CalendarDay): number {
  return dayNumber(to) - dayNumber(from);
}

/** The day a number of days later. @example addDays('2026-02-28', 1) // → '2026-03-01' */
export function addDays(day: CalendarDay, days: number): CalendarDay {
  return calendarDayOf(dayNumber(day) + days);
}

/** Days from early to late, for a sort. @example compareDays('2026-02-28', '2026-03-01') // → -1 */
export function compareDays(a: CalendarDay, b: CalendarDay): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The last of some days. @example latestDay(['2026-03-01', '2026-02-28']) // → '2026-03-01' */
export function latestDay(days: readonly CalendarDay[]): CalendarDay | undefined {
  return days.toSorted().at(-1);
}

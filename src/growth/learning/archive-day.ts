import { type CalendarDay, addDays } from '../../record/calendar-day.js';

/**
 * The day as of which other cows teach: the last day of the calendar quarter before `today`.
 *
 * Why this way: a farmer's dates do not wander from day to day with other farms' cows.
 *
 * Valid:   on the last day of a quarter it is still the quarter before
 * Checked: tests/growth/learning.test.ts
 * @example archiveDay('2026-11-25') // → '2026-09-30'
 */
export function archiveDay(today: CalendarDay): CalendarDay {
  const [year, month] = today.split('-');
  const monthsBefore = (Number(month) - 1) % 3;
  const begun = String(Number(month) - monthsBefore).padStart(2, '0');
  return addDays([year, begun, '01'].join('-'), -1);
}

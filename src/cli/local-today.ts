import { type CalendarDay, calendarDay, firstCalendarDay, lastCalendarDay } from '../record/calendar-day.js';
import { WrongUse } from '../run/exit-code.js';

/**
 * The calendar day it is where this machine stands, not in Greenwich.
 *
 * Error: WrongUse where the clock says a day no file may hold: what was written on it, nobody could read
 */
export function localToday(now = new Date()): CalendarDay {
  const two = (n: number) => String(n).padStart(2, '0');
  const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  if (calendarDay.safeParse(day).success) return day;
  throw new WrongUse(
    `this computer's clock says ${day}, expected a day from ${firstCalendarDay} to ${lastCalendarDay}; nothing was written. Set the clock, then do this again`,
  );
}

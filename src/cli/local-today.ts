import type { CalendarDay } from '../record/calendar-day.js';

/** The calendar day it is where this machine stands, not in Greenwich. */
export function localToday(): CalendarDay {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { DueItem } from '../schedule/due-item.js';

/** A job of the trimmer's for the planned visit: due on its day, or late already. What falls before it or after it stands apart. */
export function waitsForVisit(
  { who, by }: DueItem,
  visit: CalendarDay | undefined,
  today: CalendarDay,
): boolean {
  return who === 'trimmer' && visit !== undefined && visit >= today && (by === visit || by < today);
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { DueItem } from '../schedule/due-item.js';

/** A job of the trimmer's that stands on the planned visit: whatever is due by its day. */
export function standsOnVisit({ who, by }: DueItem, visit: CalendarDay): boolean {
  return who === 'trimmer' && by <= visit;
}

/**
 * A job of the trimmer's that has no other day than the planned visit: due on it, or late already. What falls due before
 * the visit stands on it as well, and apart with whom to ring, for the vet, the farm or an extra call.
 */
export function waitsForVisit(
  { who, by }: DueItem,
  visit: CalendarDay | undefined,
  today: CalendarDay,
): boolean {
  return who === 'trimmer' && visit !== undefined && (by === visit || by < today);
}

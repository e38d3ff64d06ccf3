import type { Animal } from '../../record/animal.js';
import { type CalendarDay, calendarDay } from '../../record/calendar-day.js';

/** The latest day, up to today, of anything written in an animal's file; undefined where none is. A day planned for that has passed counts too: rather kept too long than gone too soon. */
export function lastEntry(animal: Animal, today: CalendarDay): CalendarDay | undefined {
  return daysIn(animal)
    .filter((day) => day <= today)
    .toSorted()
    .at(-1);
}

function daysIn(value: unknown): CalendarDay[] {
  if (typeof value === 'string') return calendarDay.safeParse(value).success ? [value] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(daysIn);
}

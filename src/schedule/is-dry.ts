import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';

/** Dried off and not calved since. */
export function isDry({ calvings = [], 'dried-off': driedOff = [] }: Animal, day: CalendarDay): boolean {
  const dried = driedOff
    .filter((on) => on <= day)
    .sort()
    .at(-1);
  return dried !== undefined && !calvings.some((on) => on > dried && on <= day);
}

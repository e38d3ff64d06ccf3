import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';

/**
 * Works a thing out once for an animal and a day and hands the same answer out again.
 *
 * Why: standing, notices, due items and gaps all ask for the same blocks and the same looks, and a practice has
 * thousands of cases. A record is never changed after it was read, so an answer stays true as long as the record.
 */
export function onceForAnimal<T>(
  work: (animal: Animal, today: CalendarDay) => T,
): (animal: Animal, today: CalendarDay) => T {
  const known = new WeakMap<Animal, Map<CalendarDay, T>>();
  return (animal, today) => {
    const days = known.get(animal) ?? new Map<CalendarDay, T>();
    if (days.size === 0) known.set(animal, days);
    const answer = days.get(today);
    if (answer !== undefined) return answer;
    const worked = work(animal, today);
    days.set(today, worked);
    return worked;
  };
}

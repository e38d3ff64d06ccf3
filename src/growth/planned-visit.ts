import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';

/**
 * The day on which she should next be seen, as somebody wrote it down: her own recheck goes before the
 * farm's next visit.
 *
 * Valid:   from `today` on; undefined where nothing is planned, or all that was has passed
 * Checked: tests/growth/planned-visit.test.ts
 */
export function plannedVisit(
  animal: Pick<Animal, 'visits'>,
  farm: Pick<Farm, 'next-visit'>,
  today: CalendarDay,
): CalendarDay | undefined {
  const rechecks = animal.visits.flatMap(({ date, recheck }) =>
    date <= today && recheck !== undefined && recheck >= today ? recheck : [],
  );
  const next = farm['next-visit'];
  return rechecks.at(-1) ?? (next !== undefined && next >= today ? next : undefined);
}

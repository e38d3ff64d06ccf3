import { type DueItem, lifts } from './due/due-item.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { CaseWork } from './case-work.js';

/** To be done: neither done nor suspended while work has stopped. */
export function isOpen({ standing }: Pick<DueItem, 'standing'>): boolean {
  return standing === 'open' || standing === 'overdue';
}

/** What is to be done, as `dueItems` sorts it. */
export function openDue(due: readonly DueItem[]): DueItem[] {
  return due.filter(isOpen);
}

/** The farm's next visit as written, where its day has not passed. */
export function plannedVisit(farm: Pick<Farm, 'next-visit'>, today: CalendarDay): CalendarDay | undefined {
  const next = farm['next-visit'];
  return next !== undefined && next >= today ? next : undefined;
}

/**
 * The day she is lifted next: the first on which a foot of hers is due to us. What was due already waits for the
 * farm's planned visit; that visit alone lifts nobody.
 *
 * Valid:   from `today` on; undefined where nothing of hers is due, or all of it is late and no visit is planned
 * Checked: tests/schedule/next-lift.test.ts
 */
export function nextLift(
  farm: Pick<Farm, 'next-visit'>,
  { due }: Pick<CaseWork, 'due'>,
  today: CalendarDay,
): CalendarDay | undefined {
  const visit = plannedVisit(farm, today);
  return due
    .filter((item) => lifts.has(item.what) && isOpen(item))
    .flatMap(({ by }) => (by >= today ? by : (visit ?? [])))
    .sort()[0];
}

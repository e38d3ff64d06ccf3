import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { CaseWork } from './case-work.js';
import { isOpen } from './open-due.js';

/** The first day after today on which she should be lifted, as far as one is known: written for her, due, or the farm's next visit. */
export function nextLift(
  farm: Pick<Farm, 'next-visit'>,
  { record, due }: Pick<CaseWork, 'record' | 'due'>,
  today: CalendarDay,
): CalendarDay | undefined {
  const written = record.animal.visits.findLast((visit) => visit.recheck !== undefined)?.recheck;
  const rechecks = due.filter((item) => item.what === 'recheck' && isOpen(item)).map((item) => item.by);
  const days = [written, ...rechecks, farm['next-visit']].flatMap((day) => day ?? []);
  return days.filter((day) => day > today).sort()[0];
}

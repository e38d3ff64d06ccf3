import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { CaseWork } from './case-work.js';

/** Days after today on which she should be lifted, as far as they are known: the day written for her, then the farm's. */
export function nextVisits(farm: Farm, { record, due }: CaseWork, today: CalendarDay): CalendarDay[] {
  const written = record.animal.visits.findLast((visit) => visit.recheck !== undefined)?.recheck;
  const rechecks = due
    .filter((item) => item.what === 'recheck' && item.standing !== 'done')
    .map((item) => item.by);
  const days = [written, ...rechecks, farm['next-visit']].flatMap((day) => day ?? []);
  return [...new Set(days)]
    .filter((day) => day > today)
    .sort()
    .slice(0, 1);
}

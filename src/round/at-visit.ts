import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { DueItem } from '../schedule/due-item.js';

/** An animal with what the trimmer is to do to her at a visit. */
export interface AtVisit<One extends CaseWork = CaseWork> {
  readonly one: One;
  /** By day. */
  readonly items: readonly DueItem[];
}

/** Who is to be lifted at a visit of that day: every animal for whom the trimmer has something to do by then. */
export function atVisit<One extends CaseWork>(cases: readonly One[], day: CalendarDay): AtVisit<One>[] {
  return cases
    .map((one) => ({
      one,
      items: one.due.filter(({ who, by, standing }) => who === 'trimmer' && by <= day && standing !== 'done'),
    }))
    .filter(({ items }) => items.length > 0);
}

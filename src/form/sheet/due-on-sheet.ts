import { type CalendarDay, addDays } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { isOpen, plannedVisit } from '../../schedule/next-lift.js';
import { formLayout } from '../field.js';
import { given } from '../../record/given.js';

/** The days a sheet is for: what falls due from the one to the other, both in; without `from`, all that is overdue too. */
export interface SheetDays {
  readonly from?: CalendarDay;
  readonly to: CalendarDay;
  /** The day of the visit: the farm's next one where it is written, else the day of asking. */
  readonly visit: CalendarDay;
}

export function sheetDays(
  farm: Farm,
  today: CalendarDay,
  asked: { readonly from?: CalendarDay; readonly to?: CalendarDay },
): SheetDays {
  const visit = plannedVisit(farm, today) ?? today;
  const to = asked.to ?? (visit > today ? visit : addDays(today, formLayout.dueWithinDays));
  return { ...given({ from: asked.from }), to, visit };
}

/** The animals with something due to the trimmer in those days, soonest first; with `all`, every open case, those due first. */
export function dueOnSheet(
  work: readonly CaseWork[],
  { from = '', to }: SheetDays,
  all: boolean,
): CaseWork[] {
  const due = ({ due: items }: CaseWork): CalendarDay | undefined =>
    items
      .filter((item) => item.who === 'trimmer' && isOpen(item) && item.by >= from && item.by <= to)
      .map(({ by }) => by)
      .toSorted()[0];
  return work
    .map((one) => ({ one, by: due(one) }))
    .filter(({ one, by }) => by !== undefined || (all && !one.standing.closed))
    .toSorted((a, b) => ((a.by ?? '9') < (b.by ?? '9') ? -1 : (a.by ?? '9') > (b.by ?? '9') ? 1 : 0))
    .map(({ one }) => one);
}

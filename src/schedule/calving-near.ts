import type { Animal } from '../record/animal.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { fixedDays } from '../reference/intervals.js';

/** She is close to calving: a lift is agreed first, and how she is held matters. */
export interface CalvingNear {
  /** The day she is due, where one is written. */
  readonly due?: CalendarDay;
  /** It will be her first calf. */
  readonly heifer: boolean;
}

/**
 * Whether she is close to calving on any of some days: in the three weeks before the day she is due and the two after
 * it, until a calving is written; or a heifer of whom no day is written, old enough to calve.
 *
 * Source:  shared/intervals.json `close-to-calving`, `calving-after`, `heifer-may-calve`
 * Checked: tests/schedule/calving-near.test.ts
 */
export function calvingNear(animal: Animal, days: readonly CalendarDay[]): CalvingNear | undefined {
  const { born, calvings, 'due-to-calve': due, 'calved-before': before = 0 } = animal;
  const heifer = calvings !== undefined && calvings.length + before === 0;
  const isAmong = (from: CalendarDay, to?: CalendarDay) =>
    days.some((day) => day >= from && (to === undefined || day <= to));
  if (due === undefined)
    return heifer && born !== undefined && isAmong(addDays(born, fixedDays('heifer-may-calve')))
      ? { heifer }
      : undefined;
  const calved = (calvings ?? []).some((on) => on >= addDays(due, -fixedDays('calving-before')));
  if (calved) return undefined;
  const [from, to] = [addDays(due, -fixedDays('close-to-calving')), addDays(due, fixedDays('calving-after'))];
  return isAmong(from, to) ? { due, heifer } : undefined;
}

import type { Animal } from '../record/animal.js';
import { addDays, type CalendarDay, daysBetween, latestDay } from '../record/calendar-day.js';
import { fixedDays } from '../reference/intervals.js';

type Calvings = Pick<Animal, 'calvings' | 'calved-before' | 'dried-off' | 'due-to-calve'>;

/** What the record shows of her milk on a day; `not-known` where a calving or a drying-off may be missing. */
type InMilk = 'in-milk' | 'dry' | 'not-calved' | 'not-known';

/**
 * Whether the record shows her in milk on a day.
 *
 * Why this way: a drying-off is often not written down. Within the usual dry period before a calving, due or recorded,
 * she may be dry, so that without a drying-off nobody knows. The day she is dried off counts as dry: what is given then
 * is given after her last milking. The day she calves counts as in milk.
 *
 * Source:  shared/intervals.json `dry-before-calving`, `gestation`
 * Checked: tests/schedule/calving.test.ts
 * @example inMilkOn({ calvings: ['2025-06-20'], 'dried-off': ['2026-04-22'] }, '2026-05-01') // → 'dry'
 */
export function inMilkOn(animal: Calvings, day: CalendarDay): InMilk {
  const { calvings, 'calved-before': before = 0, 'dried-off': driedOff = [] } = animal;
  const calved = lastBy(calvings ?? [], day);
  const dried = lastBy(driedOff, day);
  if (dried !== undefined && (calved === undefined || dried >= calved)) return 'dry';
  if (calvings === undefined) return 'not-known';
  if (calved === undefined) return before > 0 ? 'not-known' : 'not-calved';
  const next = [...calvings.filter((on) => on > day), ...dueOn(animal, day)];
  const mayBeDry = next.some(
    (on) =>
      daysBetween(day, on) <= fixedDays('dry-before-calving') &&
      !driedOff.some((later) => later > day && later <= on),
  );
  return mayBeDry ? 'not-known' : 'in-milk';
}

/** Whether she is in the last tenth of pregnancy or the first week after calving, when she does not travel. */
export function calvingForbidsTravel(
  animal: Calvings,
  day: CalendarDay,
): 'before-calving' | 'after-calving' | undefined {
  const calved = lastBy(animal.calvings ?? [], day);
  if (calved !== undefined && daysBetween(calved, day) <= fixedDays('travel-after-calving'))
    return 'after-calving';
  const lastTenth = fixedDays('gestation') / 10;
  return dueOn(animal, day).some((due) => daysBetween(day, due) <= lastTenth) ? 'before-calving' : undefined;
}

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
  if (due === undefined) {
    const from = born && addDays(born, fixedDays('heifer-may-calve'));
    return heifer && from && days.some((day) => day >= from) ? { heifer } : undefined;
  }
  const [from, to] = [addDays(due, -fixedDays('close-to-calving')), addDays(due, fixedDays('calving-after'))];
  const isNear = days.some((day) => day >= from && day <= to && dueOn(animal, day).length > 0);
  return isNear ? { due, heifer } : undefined;
}

/** The day she is due, unless a calving by that day was this one's: no cow carries two calves in one gestation. */
function dueOn({ calvings = [], 'due-to-calve': due }: Calvings, day: CalendarDay): CalendarDay[] {
  if (due === undefined) return [];
  return (lastBy(calvings, day) ?? '') > addDays(due, -fixedDays('gestation')) ? [] : [due];
}

function lastBy(days: readonly CalendarDay[], day: CalendarDay): CalendarDay | undefined {
  return latestDay(days.filter((on) => on <= day));
}

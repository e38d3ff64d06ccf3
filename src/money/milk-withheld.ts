import type { Animal } from '../record/animal.js';
import { type CalendarDay, calendarDayOf, dayNumber } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { leftFarm } from '../record/visit.js';
import { inMilkOn } from '../schedule/calving.js';
import { heldByUse } from '../schedule/withheld.js';
import type { PieceOfWork } from './work-done.js';

export interface MilkWithheld {
  /** Days on which milk was withheld, each once however many products ask for it, oldest first. */
  readonly days: readonly CalendarDay[];
  /** Days of giving a product whose milk days are not known: a day for each use. */
  readonly notKnown: readonly CalendarDay[];
}

/**
 * The days on which her milk was withheld because of products given, up to a day.
 *
 * From the day after the first dose to the last withheld day as the schedule has it; the day of the first dose is not
 * counted, since part of its milk had gone. Days on which she gave no milk are not counted: dry, not calved yet, or gone.
 *
 * Shape:   her record, the products among her pieces of work → days
 * Unit:    whole calendar days
 * Checked: tests/money/milk-withheld.test.ts (by hand)
 */
export function milkWithheld(
  animal: Animal,
  pieces: readonly PieceOfWork[],
  farm: Farm,
  today: CalendarDay,
): MilkWithheld {
  const withheld = new Set<number>();
  const notKnown: CalendarDay[] = [];
  const given = new Map(pieces.flatMap(({ product, date }) => (product ? [[product, date]] : [])));
  for (const { use, side, to, isKnown } of heldByUse(animal, farm, today)) {
    const date = given.get(use);
    if (date === undefined || side === 'meat') continue;
    if (!isKnown) notKnown.push(date);
    const last = to < today ? to : today;
    if (isKnown) for (let day = dayNumber(date) + 1; day <= dayNumber(last); day += 1) withheld.add(day);
  }
  const days = [...withheld].sort((a, b) => a - b).map(calendarDayOf);
  return { days: days.filter((day) => givesMilk(animal, day)), notKnown: notKnown.sort() };
}

function givesMilk(animal: Animal, day: CalendarDay): boolean {
  const gone = (animal.episodes ?? []).some(
    ({ ended, result }) => ended !== undefined && ended < day && result !== undefined && leftFarm.has(result),
  );
  const shown = inMilkOn(animal, day);
  return !gone && shown !== 'dry' && shown !== 'not-calved';
}

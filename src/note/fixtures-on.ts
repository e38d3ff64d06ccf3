import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type Claw, claws, type Foot, feet } from '../record/words.js';

/** Blocks on before a day, by the record; one found worn may still be on. */
export function blocksOn(animal: Animal, date: CalendarDay): { readonly foot: Foot; readonly claw: Claw }[] {
  const events = before(animal, date).flatMap(({ blocks }) => blocks ?? []);
  return feet.flatMap((foot) =>
    claws.flatMap((claw) => {
      const last = events.findLast((one) => one.foot === foot && one.claw === claw);
      return isOn(last?.event) ? [{ foot, claw }] : [];
    }),
  );
}

/** Feet with a wrap on before a day, by the record. */
export function wrapsOn(animal: Animal, date: CalendarDay): Foot[] {
  const events = before(animal, date).flatMap(({ wraps }) => wraps ?? []);
  return feet.filter((foot) => isOn(events.findLast((one) => one.foot === foot)?.event));
}

function before(animal: Animal, date: CalendarDay): Animal['visits'] {
  return animal.visits.filter((visit) => visit.date < date);
}

function isOn(event: string | undefined): boolean {
  return event !== undefined && event !== 'removed' && event !== 'lost';
}

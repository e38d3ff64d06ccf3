import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Claw, Foot, WallLine } from '../record/words.js';
import { growthNumbers } from '../reference/growth-numbers.js';

/** Which lactation she is in, as far as it changes the growth of horn. */
export type Lactation = 'first' | 'second' | 'later' | 'unknown';

/**
 * Her lactation on a day. A heifer that has not calved counts as in her first.
 *
 * Valid:   calvings on or before the day, with those before the record began; `unknown` where no calvings are written
 * Checked: tests/growth/reference-rate.test.ts
 * @example lactationOn({ calvings: ['2024-03-01', '2025-03-09'] }, '2025-01-01') // → 'first'
 */
export function lactationOn(animal: Pick<Animal, 'calvings' | 'calved-before'>, day: CalendarDay): Lactation {
  const calved = timesCalved(animal, day);
  if (calved === undefined) return 'unknown';
  if (calved <= 1) return 'first';
  return calved === 2 ? 'second' : 'later';
}

/** How often she has calved by the end of a day; undefined where no calvings are written, `[]` is none. */
export function timesCalved(
  animal: Pick<Animal, 'calvings' | 'calved-before'>,
  day: CalendarDay,
): number | undefined {
  if (animal.calvings === undefined) return undefined;
  return animal.calvings.filter((calving) => calving <= day).length + (animal['calved-before'] ?? 0);
}

/** Where on her a line runs, and her lactation when it was first read. */
export interface LinePlace {
  readonly line: WallLine;
  readonly claw: Claw;
  readonly foot: Foot;
  readonly lactation: Lactation;
}

/**
 * How fast horn comes down on a line of an average cow.
 *
 * Unit:    mm per month of 30.4375 days
 * Source:  shared/growth.json `lines`, `claw`, `foot`, `lactation`
 * Checked: tests/growth/reference-rate.test.ts
 * @example referenceRate({ line: 'heel', claw: 'outer', foot: 'LH', lactation: 'unknown' }) // → 6
 */
export function referenceRate({ line, claw, foot, lactation }: LinePlace): number {
  const numbers = growthNumbers;
  const end = foot === 'LF' || foot === 'RF' ? 'front' : 'hind';
  return (
    numbers.lines[line].rate.value *
    numbers.claw[claw].value *
    numbers.foot[end].value *
    numbers.lactation[lactation].value
  );
}

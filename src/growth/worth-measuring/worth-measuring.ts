import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Claw, Foot, Tool, WallLine } from '../../record/words.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import type { GrowthOptions } from '../follow-animal.js';
import type { GrowingConditions } from '../growing-conditions.js';
import { type NextVisits, readingsToTry } from './readings-to-try.js';

/**
 * The one reading that would narrow a date most: a gap's top, its wall, a growth mark there is, or a notch filed now
 * and read at the visit after.
 */
export interface WorthMeasuring {
  /** The gap whose date it narrows. */
  readonly lesion: string;
  readonly what: 'top' | 'wall' | 'mark' | 'new-mark';
  /** The lesion or mark to be read; absent for a new mark. */
  readonly of?: string;
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
  readonly tool: Tool;
  /** The day it is taken; of a new mark, the day it is filed. */
  readonly on: CalendarDay;
  /** A new mark teaches only once it is read again. */
  readonly readAgainOn?: CalendarDay;
  /** Half the 80 % range, weeks: without it, and with it if it reads as expected. */
  readonly nowWeeks: number;
  readonly thenWeeks: number;
}

const { atLeast } = growthNumbers.worthMeasuring;

/**
 * Finds the one reading at the next visit that would narrow a date most: which line, which tool, or a notch
 * filed on a sound claw.
 *
 * How sure a reading makes us does not hang on what it shows, so it is worked out beforehand, as if it showed
 * what is expected. A finer tool than the one in use is named only where it narrows by another week, and so is a
 * notch, which pays only at the visit after.
 *
 * Shape:   an animal, the day of the next visit → one reading, or undefined where none narrows enough
 * Unit:    weeks either way
 * Valid:   of gaps that have a date and are not likely out by then; not of those at the coronet, where sound horn must come first
 * Source:  shared/growth.json `worthMeasuring`
 * Checked: tests/hand-worked/worth-measuring.test.ts, tests/growth/worth-measuring.test.ts
 * @example worthMeasuring(animal, growingConditions(farm), { today, prior }, { next: '2026-12-16' })
 */
export function worthMeasuring(
  animal: Animal,
  conditions: GrowingConditions,
  options: GrowthOptions,
  visits: NextVisits,
): WorthMeasuring | undefined {
  const tried = readingsToTry(animal, conditions, options, visits).filter(
    ({ reading }) => narrowed(reading) >= atLeast.value,
  );
  let best: WorthMeasuring | undefined;
  for (const trouble of ['usual', 'finer tool', 'visit after', 'both'] as const) {
    const most = mostNarrowing(tried.filter((one) => one.trouble === trouble).map(({ reading }) => reading));
    if (most === undefined) continue;
    if (best === undefined || narrowed(most) - narrowed(best) >= atLeast.value) best = most;
  }
  return best;
}

function mostNarrowing(readings: readonly WorthMeasuring[]): WorthMeasuring | undefined {
  let most = readings[0];
  for (const reading of readings) if (narrowed(reading) > narrowed(most!)) most = reading;
  return most;
}

function narrowed({ nowWeeks, thenWeeks }: WorthMeasuring): number {
  return nowWeeks - thenWeeks;
}

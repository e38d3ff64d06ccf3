import type { Animal } from '../../record/animal.js';
import { growthNumbers } from '../../reference/growth-numbers.js';
import type { GrowthOptions } from '../follow-animal.js';
import type { GrowingConditions } from '../growing-conditions.js';
import { type NextVisits, readingsToTry } from './readings-to-try.js';
import type { ReadingWorthTaking } from './reading-worth-taking.js';

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
): ReadingWorthTaking | undefined {
  const tried = readingsToTry(animal, conditions, options, visits).filter(
    ({ reading }) => narrowed(reading) >= atLeast.value,
  );
  let best: ReadingWorthTaking | undefined;
  for (const trouble of ['usual', 'finer tool', 'visit after', 'both'] as const) {
    const most = mostNarrowing(tried.filter((one) => one.trouble === trouble).map(({ reading }) => reading));
    if (most === undefined) continue;
    if (best === undefined || narrowed(most) - narrowed(best) >= atLeast.value) best = most;
  }
  return best;
}

function mostNarrowing(readings: readonly ReadingWorthTaking[]): ReadingWorthTaking | undefined {
  let most = readings[0];
  for (const reading of readings) if (narrowed(reading) > narrowed(most!)) most = reading;
  return most;
}

function narrowed({ nowWeeks, thenWeeks }: ReadingWorthTaking): number {
  return nowWeeks - thenWeeks;
}

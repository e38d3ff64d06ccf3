import type { CalendarDay } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { isMeasured } from './growth-line.js';
import type { LineFollowed } from './held-slowly.js';

/**
 * A gap that stands held at its latest reading: since when, how many SDs short of growth, and whether that is
 * enough to call it held. Where it is not, it only may be: there is no date, but nothing is said that the slowest
 * of sound cows would have said of her too.
 */
export interface HeldNow {
  readonly since: CalendarDay;
  readonly z: number;
  readonly sure: boolean;
}

const { heldCalledBelow } = growthNumbers.tests;

/**
 * Whether a gap stands held now: over a stretch that ends at its latest reading, or by that reading
 * alone, and then since the reading before it.
 *
 * Checked: tests/growth/growth-cases.test.ts
 */
export function heldNow({ judged, held }: LineFollowed): HeldNow | undefined {
  const measured = judged.filter(({ reading }) => isMeasured(reading));
  const latest = measured.at(-1);
  if (latest === undefined) return undefined;
  const stretch = held.find(({ at }) => at === latest.reading);
  if (stretch !== undefined) {
    const sure = latest.kind === 'held' || stretch.z < heldCalledBelow.value;
    return { since: stretch.since.date, z: stretch.z, sure };
  }
  const before = measured.at(-2);
  if (latest.kind !== 'held' || latest.expected === undefined || before === undefined) return undefined;
  return { since: before.reading.date, z: latest.expected.z, sure: true };
}

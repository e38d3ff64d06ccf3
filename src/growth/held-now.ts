import type { CalendarDay } from '../record/calendar-day.js';
import { isMeasured } from './growth-line.js';
import type { LineFollowed } from './held-slowly.js';

/** A gap that stands held at its latest reading: since when, and how many SDs short of growth. */
export interface HeldNow {
  readonly since: CalendarDay;
  readonly z: number;
}

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
  if (stretch !== undefined) return { since: stretch.since.date, z: stretch.z };
  const before = measured.at(-2);
  if (latest.kind !== 'held' || latest.expected === undefined || before === undefined) return undefined;
  return { since: before.reading.date, z: latest.expected.z };
}

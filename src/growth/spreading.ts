import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { readingError } from '../reference/reading-error.js';

/** A gap that has grown wider round the claw than two readings can be off. */
export interface Spreading {
  readonly since: CalendarDay;
  readonly fromMm: number;
  readonly toMm: number;
}

/**
 * Whether the width of a gap has grown since it was last measured, beyond what readings can tell.
 *
 * A gap may spread round the claw while its top comes down as it should.
 *
 * Unit:    mm
 * Valid:   the last two widths up to the day; each with the error of its tool, and of another reader where there was one
 * Source:  shared/growth.json `tests.tellApart`: 2√2 σ where both were read alike
 * Checked: tests/growth/spreading.test.ts
 */
export function spreading(animal: Animal, lesion: string, upTo: CalendarDay): Spreading | undefined {
  const widths = animal.visits.flatMap((visit) => {
    const found = visit.found?.[lesion];
    if (found?.width === undefined || visit.date > upTo) return [];
    return { date: visit.date, by: visit.by, mm: found.width, tool: found.tool };
  });
  const [before, now] = widths.slice(-2);
  if (before === undefined || now === undefined) return undefined;
  const first = widths[0]!.by;
  const error = ({ tool, mm, by }: typeof now) => readingError(tool, mm, by === first);
  const tells = growthNumbers.tests.tellApart.value * Math.hypot(error(before), error(now));
  if (now.mm - before.mm <= tells) return undefined;
  return { since: before.date, fromMm: before.mm, toMm: now.mm };
}

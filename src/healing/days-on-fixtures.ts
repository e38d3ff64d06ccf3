import { dayNumber, type CalendarDay } from '../record/calendar-day.js';
import type { FixtureSpan } from './fixture-span.js';

/**
 * Whole days covered by spans, each day once; `certain` is false where a start or an end is not known, and the
 * number is then the fewest it can be.
 */
export function daysOnFixtures(
  spans: readonly FixtureSpan[],
  today: CalendarDay,
): { readonly atLeast: number; readonly certain: boolean } {
  const stretches = spans
    .map((span) => ({
      from: dayNumber(span.from),
      to: dayNumber(span.end?.dayUnknown ? span.lastKnownOn : (span.end?.by ?? today)),
    }))
    .sort((a, b) => a.from - b.from);
  let reached = -Infinity;
  let atLeast = 0;
  for (const { from, to } of stretches) {
    atLeast += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return { atLeast, certain: spans.every((span) => span.fitted && !span.end?.dayUnknown) };
}

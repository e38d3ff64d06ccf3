import { addDays } from '../record/calendar-day.js';
import type { DaySpan } from './timeline-input.js';

/**
 * Spans that touch or overlap as one, from the first day to the last: what is withheld twice is withheld once.
 * @example joinedSpans([{ from: '2026-03-01', to: '2026-03-04' }, { from: '2026-03-03', to: '2026-03-09' }]) // → [{ from: '2026-03-01', to: '2026-03-09' }]
 */
export function joinedSpans(spans: readonly DaySpan[]): DaySpan[] {
  const joined: DaySpan[] = [];
  for (const span of spans.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))) {
    const before = joined.at(-1);
    const clear = before?.to !== undefined && span.from > addDays(before.to, 1);
    if (!before || clear) joined.push(span);
    else if (before.to !== undefined && (span.to === undefined || span.to > before.to))
      joined[joined.length - 1] = { ...span, from: before.from };
  }
  return joined;
}

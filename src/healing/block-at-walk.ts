import type { CalendarDay } from '../record/calendar-day.js';
import type { Visit } from '../record/visit.js';
import type { FixtureSpan } from './fixture-span.js';

/**
 * Whether she walked on a block when she was scored at a visit.
 *
 * The visit's own word wins. Else the block events tell: she is scored walking in, so a block fitted that day was
 * not on yet and one taken off that day still was. A block lost that day, a loss on an unknown day before it,
 * and a report of a day on which a block was fitted leave it unclear.
 *
 * Checked: tests/healing/gait-standing.test.ts
 */
export function blockAtWalk(visit: Visit, spans: readonly FixtureSpan[]): 'on' | 'off' | 'unclear' {
  if (visit['on-block'] !== undefined) return visit['on-block'] ? 'on' : 'off';
  const told = spans.map((span) => blockOn(span, visit.date, visit.kind === 'report'));
  return told.includes('on') ? 'on' : told.includes('unclear') ? 'unclear' : 'off';
}

function blockOn(span: FixtureSpan, day: CalendarDay, isReport: boolean): 'on' | 'off' | 'unclear' {
  const { from, fitted, end, lastKnownOn } = span;
  if (day < from) return fitted ? 'off' : 'unclear';
  if (day === from && fitted) return isReport ? 'unclear' : 'off';
  if (!end) return 'on';
  if (day > end.by) return 'off';
  if (end.how === 'lost') return day <= lastKnownOn && day < end.by ? 'on' : 'unclear';
  return day === end.by && isReport ? 'unclear' : 'on';
}

import type { FixtureSpan } from '../healing/fixture-span.js';
import type { CalendarDay } from '../record/calendar-day.js';

/**
 * Whether a block was on her for the day that begins after the work of a day is done.
 *
 * A block fitted that day is on, one taken off that day is not. Between the last day a lost block was certainly
 * on and the day it was found gone it is unclear, as are all days before a block first heard of when it was on already.
 *
 * Checked: tests/herd/lame-days.test.ts
 */
export function blockOnDay(spans: readonly FixtureSpan[], day: CalendarDay): 'on' | 'off' | 'unclear' {
  const told = spans.map(({ from, fitted, end, lastKnownOn }) => {
    if (day < from) return fitted ? 'off' : 'unclear';
    if (end && day >= end.by) return 'off';
    return end?.dayUnknown && day >= lastKnownOn ? 'unclear' : 'on';
  });
  return told.includes('on') ? 'on' : told.includes('unclear') ? 'unclear' : 'off';
}

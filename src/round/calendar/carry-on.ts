import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import { roundNumbers } from '../../reference/round-numbers.js';
import type { CalendarEntry, CalendarMemory } from './calendar-memory.js';
import type { EntryDraft } from './entry-draft.js';

/**
 * What was last written, carried on to what is due now.
 *
 * A job that was late already when it was first put in stands on the day it was put in, so that somebody sees it.
 * `stamp` is the last day on record: it is kept where an entry did not change and never goes back.
 */
export function carryOn(
  { entries, gone }: Pick<CalendarMemory, 'entries' | 'gone'>,
  drafts: readonly EntryDraft[],
  stamp: CalendarDay,
  today: CalendarDay,
): Pick<CalendarMemory, 'entries' | 'gone'> {
  const after: Record<string, CalendarEntry> = {};
  const left: Record<string, number> = { ...gone };
  for (const draft of drafts) {
    const { key } = draft;
    after[key] = dueNow(draft, entries[key], gone[key], stamp, today);
    delete left[key];
  }
  for (const [key, before] of Object.entries(entries)) {
    if (key in after) continue;
    const entry = notDue(before, stamp, today);
    if (today <= addDays(entry.cancelled ?? entry.day, roundNumbers.calendarKeepDays.value))
      after[key] = entry;
    else left[key] = entry.sequence;
  }
  return { entries: after, gone: left };
}

function dueNow(
  { due, summary, description, place }: EntryDraft,
  before: CalendarEntry | undefined,
  reached: number | undefined,
  stamp: CalendarDay,
  today: CalendarDay,
): CalendarEntry {
  const stands = before !== undefined && before.cancelled === undefined && before.due === due;
  const day = stands ? before.day : due < today ? today : due;
  const same =
    stands && before.summary === summary && before.description === description && before.place === place;
  if (same) return before;
  const sequence = (before?.sequence ?? reached ?? -1) + 1;
  return { sequence, stamp: later(stamp, before), day, due, summary, description, place };
}

/** Whose day has come is left as it stood: what was planned for a day that is over is not taken back. */
function notDue(before: CalendarEntry, stamp: CalendarDay, today: CalendarDay): CalendarEntry {
  if (before.cancelled !== undefined || before.day <= today) return before;
  return { ...before, sequence: before.sequence + 1, stamp: later(stamp, before), cancelled: today };
}

function later(stamp: CalendarDay, before: CalendarEntry | undefined): CalendarDay {
  return before !== undefined && before.stamp > stamp ? before.stamp : stamp;
}

import type { CalendarDay } from '../../record/calendar-day.js';
import { type FarmWork, wordsOfFarm } from '../farm-work.js';
import { type CalendarMemory, emptyMemory } from './calendar-memory.js';
import { carryOn } from './carry-on.js';
import { jobEntries } from './job-entries.js';
import { visitEntry } from './visit-entry.js';
import { withheldEntries } from './withheld-entries.js';
import { writeCalendar } from './write-calendar.js';

export interface FarmCalendar {
  /** The calendar file, whole. */
  readonly ics: string;
  /** What is to be remembered once the file is written. */
  readonly remembered: CalendarMemory;
}

/**
 * A farm's calendar: an entry for the planned visit, and one for each job of the farm, or of the trimmer before it.
 *
 * An entry is known by what it is about, never by its day, so one that moves is moved and not doubled. What changed
 * since the last writing has its number raised; what is no longer due, and whose day has not come, is cancelled; what
 * has had its day is left as it stood. Both go out of the file after a while. Nothing in it hangs on the clock: the
 * same files, the same memory and the same day give the same bytes, and so does a later day on which nothing changed.
 *
 * Shape:   one farm worked out, and what was last written (none: never) → the file's text and what to remember
 * Unit:    whole days, the end of each entry exclusive; lines end in CR LF and are folded at 75 octets
 * Source:  RFC 5545; how long a cancelled entry is kept: shared/round.json
 * Checked: tests/round/calendar.test.ts
 */
export function calendarOf(
  work: FarmWork,
  remembered: CalendarMemory | undefined,
  today: CalendarDay,
): FarmCalendar {
  const words = wordsOfFarm(work);
  const { business, trimmer } = work.business;
  const before = remembered ?? emptyMemory(business ?? trimmer ?? '');
  const visit = visitEntry(words, work, before, today);
  const drafts = [
    ...(visit ? [visit.draft] : []),
    ...jobEntries(words, work, today),
    ...withheldEntries(words, work),
  ];
  const entries = carryOn(before, drafts, lastRecorded(work, today), today);
  const after = { ...before, ...visit?.counted, ...entries };
  const { slug, farm } = work.record;
  const name = words.say('round.calendar.name', { farm: farm.farm });
  return { ics: writeCalendar(words, name, [{ farm: slug, memory: after }]), remembered: after };
}

/** The last day something was written down on this farm; the day itself where nothing was. */
function lastRecorded({ cases }: FarmWork, today: CalendarDay): CalendarDay {
  const days = cases.flatMap(({ record }) => record.animal.visits.map(({ date }) => date));
  return (
    days
      .filter((day) => day <= today)
      .sort()
      .at(-1) ?? today
  );
}

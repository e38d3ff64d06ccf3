import { z } from 'zod';
import { terminal } from '../../problem/message.js';
import { calendarDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';

const entry = z.strictObject({
  /** Raised by one at each change, never lowered. */
  sequence: z.int().min(0),
  /** Day of the last record known when it was last changed. */
  stamp: calendarDay,
  /** The day it is on. */
  day: calendarDay,
  /** The day it is due; earlier than `day` where it was late already when it was first put in. */
  due: calendarDay,
  summary: z.string(),
  description: z.string(),
  place: z.string(),
  /** The day it was found no longer due, before its day had come. */
  cancelled: calendarDay.optional(),
});
/** One all-day entry as it was last written. */
export type CalendarEntry = z.infer<typeof entry>;

const memory = z.strictObject({
  calendar: z.literal(1),
  /** Whose calendar, as the business was called when it was begun: part of every entry's identity, so never changed. */
  from: z.string(),
  /** How many planned visits have had an entry, and the day of the latest. */
  visits: z.int().min(0),
  visit: calendarDay.optional(),
  /** By what each is about: `ANIMAL/JOB/PLACE`, or `visit/NUMBER`. */
  entries: z.record(z.string(), entry),
  /** Entries no longer written, with the number each had reached: one that comes back goes on from there. */
  gone: z.record(z.string(), z.int().min(0)),
});
/** What was last written into a farm's calendar; kept beside its case files. */
export type CalendarMemory = z.infer<typeof memory>;

type MemoryRead =
  | { readonly outcome: 'read'; readonly memory: CalendarMemory }
  | { readonly outcome: 'damaged'; readonly why: string };

/** A calendar that nothing was ever written into. */
export function emptyMemory(from: string): CalendarMemory {
  return { calendar: 1, from, visits: 0, entries: {}, gone: {} };
}

/**
 * The memory out of its file's text.
 *
 * A damaged one is refused, never begun anew: entries would start again below the numbers people's calendars know.
 *
 * Checked: tests/round/calendar-memory.test.ts
 */
export function readMemory(text: string): MemoryRead {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return { outcome: 'damaged', why: terminal('calendar.not-json', { error: (error as Error).message }) };
  }
  const parsed = memory.safeParse(json);
  if (parsed.success) return { outcome: 'read', memory: parsed.data };
  const [issue] = parsed.error.issues;
  const place = issue?.path.join('.') ?? '';
  const way = place === '' ? 'whole-wrong' : 'part-wrong';
  return { outcome: 'damaged', why: terminal(`calendar.${way}`, { place, error: String(issue?.message) }) };
}

/** The memory as the text of its file: the same memory, the same bytes. */
export function writeMemory({ calendar, from, visits, visit, entries, gone }: CalendarMemory): string {
  const whole = {
    calendar,
    from,
    visits,
    ...given({ visit }),
    entries: sorted(entries),
    gone: sorted(gone),
  };
  return `${JSON.stringify(whole, null, 2)}\n`;
}

/** By key in code-unit order. */
export function sorted<Value>(record: Readonly<Record<string, Value>>): Record<string, Value> {
  return Object.fromEntries(Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1)));
}

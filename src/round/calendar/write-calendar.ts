import ical, { ICalCalendar, ICalEventStatus, ICalEventTransparency } from 'ical-generator';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import type { Words } from '../../reference/words.js';
import { type CalendarMemory, sorted } from './calendar-memory.js';
import { createHash } from 'node:crypto';
import { signsShown } from '../../record/signs.js';

export interface CalendarPart {
  /** The farm's slug. */
  readonly farm: string;
  readonly memory: Pick<CalendarMemory, 'from' | 'entries'>;
}

/**
 * A calendar file of one farm's entries, or of several farms' one after the other: an entry is the same bytes in both.
 *
 * No METHOD, since nobody is invited; the days are free days, so that nobody is shown as busy.
 */
export function writeCalendar(words: Words, name: string, parts: readonly CalendarPart[]): string {
  const calendar = ical({
    prodId: { company: 'Growdown', product: 'calendar', language: words.language },
    name: named(name),
  });
  for (const { farm, memory } of parts) addEntries(calendar, farm, memory);
  return `${calendar.toString().replaceAll(ofOneVendor, '')}\r\n`;
}

/** Properties that one vendor's programs alone know, with the lines they are folded over. */
const ofOneVendor = /^X-(?:WR|MICROSOFT|APPLE)-.*\r\n(?:[ \t].*\r\n)*/gmu;

function addEntries(calendar: ICalCalendar, farm: string, { from, entries }: CalendarPart['memory']): void {
  for (const [key, entry] of Object.entries(sorted(entries)))
    calendar.createEvent({
      id: entryUid(from, farm, key),
      sequence: entry.sequence,
      stamp: midnight(entry.stamp),
      start: midnight(entry.day),
      end: midnight(addDays(entry.day, 1)),
      allDay: true,
      summary: named(entry.summary),
      description: plain(entry.description),
      location: plain(entry.place),
      transparency: ICalEventTransparency.TRANSPARENT,
      status: entry.cancelled === undefined ? ICalEventStatus.CONFIRMED : ICalEventStatus.CANCELLED,
    });
}

/** The start of a day in UTC, which is where the calendar's writer reads it. */
function midnight(day: CalendarDay): Date {
  return new Date(`${day}T00:00:00Z`);
}

/** Text as a calendar may hold it: one kind of line end, and no control characters, which RFC 5545 forbids. */
function plain(text: string): string {
  return signsShown(text.replaceAll(/\r\n?/g, '\n').replaceAll('\t', ' '));
}

/** A name on one line: where a line ends, a property would begin. */
function named(text: string): string {
  return plain(text).replaceAll(/\s*\n\s*/g, ' ');
}

/**
 * The identity of a calendar entry: a UUID made of whose calendar, which farm and what it is about, never of a day.
 *
 * Source:  RFC 9562, version 8 (a name hashed by SHA-256); RFC 7986 asks for a UUID that tells nothing
 */
function entryUid(from: string, farm: string, key: string): string {
  const hex = createHash('sha256')
    .update(JSON.stringify([from, farm, key]))
    .digest('hex');
  const variant = ((Number.parseInt(hex[16]!, 16) & 0b0011) | 0b1000).toString(16);
  const [a, b, c, d] = [hex.slice(0, 8), hex.slice(8, 12), hex.slice(13, 16), hex.slice(17, 20)];
  return `${a}-${b}-8${c}-${variant}${d}-${hex.slice(20, 32)}`;
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { Business } from '../record/business.js';
import type { FarmRecord } from '../record/practice.js';

/** What a note is read against: the records as they are, and the day. */
export interface NoteContext {
  readonly today: CalendarDay;
  readonly farms: readonly FarmRecord[];
  readonly business: Business;
  /** Slug of the farm meant where the note names none. */
  readonly farm?: string;
  /** Who did the work where the note does not say; the business's trimmer without it. */
  readonly by?: string;
}

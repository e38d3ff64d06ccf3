import type { CalendarDay } from '../../record/calendar-day.js';

/** What should stand in a calendar now, before it is held against what was last written. */
export interface EntryDraft {
  /** What it is about; two of the same farm never share it. */
  readonly key: string;
  readonly due: CalendarDay;
  readonly summary: string;
  readonly description: string;
  readonly place: string;
}

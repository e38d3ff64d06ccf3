import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { LeftOut } from './left-out.js';
import type { Level } from './handover-limits.js';
import type { Words } from '../words/words.js';

/** Whose handover it is, for which day, and how much of it there is room for. */
export interface HandoverOf {
  readonly words: Words;
  readonly business: Business;
  readonly farm: FarmRecord;
  readonly work: CaseWork;
  readonly today: CalendarDay;
  /** A question given for this page alone. */
  readonly ask?: string | undefined;
  readonly level: Level;
  /** Told of each part what had no room. */
  readonly leftOut: LeftOut;
}

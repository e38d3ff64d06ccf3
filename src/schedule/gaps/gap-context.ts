import type { CaseStanding } from '../../healing/standing.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { Visit } from '../../record/visit.js';
import type { IntervalsInForce } from '../interval-in-force.js';

/** What gaps are looked for in. */
export interface GapContext {
  readonly animal: Animal;
  readonly farm: Farm;
  readonly standing: CaseStanding;
  readonly interval: IntervalsInForce;
  /** Visits of the open episode up to the day; empty for a closed case. */
  readonly open: readonly (readonly [number, Visit])[];
  readonly today: CalendarDay;
}

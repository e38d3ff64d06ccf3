import type { CalendarDay } from '../../record/calendar-day.js';
import type { Claw, Foot, Tool, WallLine } from '../../record/words.js';

/**
 * The one reading that would narrow a date most: a gap's top, its wall, a growth mark there is, or a notch filed now
 * and read at the visit after.
 */
export interface ReadingWorthTaking {
  /** The gap whose date it narrows. */
  readonly lesion: string;
  readonly what: 'top' | 'wall' | 'mark' | 'new-mark';
  /** The lesion or mark to be read; absent for a new mark. */
  readonly of?: string;
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
  readonly tool: Tool;
  /** The day it is taken; of a new mark, the day it is filed. */
  readonly on: CalendarDay;
  /** A new mark teaches only once it is read again. */
  readonly readAgainOn?: CalendarDay;
  /** Half the 80 % range, weeks: without it, and with it if it reads as expected. */
  readonly nowWeeks: number;
  readonly thenWeeks: number;
}

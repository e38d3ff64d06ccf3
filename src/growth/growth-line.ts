import type { CalendarDay } from '../record/calendar-day.js';
import type { Tool, TopFound } from '../record/words.js';

/** One look at one line, on one day: a length, or that the top could not be reached. */
export interface LineReading {
  readonly date: CalendarDay;
  readonly day: number;
  /** Position in `animal.visits`. */
  readonly visit: number;
  readonly by: string;
  readonly tool?: Tool;
  readonly topFound?: TopFound;
  /** mm below the coronet; may be absent only where the top was not reached. */
  readonly mm?: number;
  /** SD of the length, mm, with the other-reader term; 0 without a length. */
  readonly sigmaMm: number;
  readonly notReached: boolean;
  readonly saidRanUp: boolean;
  readonly saidOpenedFurther: boolean;
  /** Loose horn hung over the gap and was left on, so that the top may not have been seen. */
  readonly underLooseHorn: boolean;
  /** It looks like a slip: the question, as in `4.1 mm? 41 would fit.` */
  readonly asked?: string;
}

/** A reading that can be used: the top was reached and measured. */
export interface Measured extends LineReading {
  readonly mm: number;
}

/** Tells whether a reading can be used at all. */
export function isMeasured(reading: LineReading): reading is Measured {
  return !reading.notReached && reading.mm !== undefined;
}

/** A point that is followed as horn moves it: the top of a gap or a growth mark on its way down, or the margin of an ulcer on its way in. */
export interface GrowthLine {
  readonly name: string;
  readonly of: 'gap' | 'mark' | 'ulcer';
  /** Reference rate, mm per month. */
  readonly rate: number;
  /** How far the rate of this one line may lie off the cow's own: SD, share of the rate. */
  readonly deviation: number;
  /** A groove: the day of the event that left it. */
  readonly grooveFrom?: number;
  /** In the order of days, then of visits. */
  readonly readings: readonly LineReading[];
}

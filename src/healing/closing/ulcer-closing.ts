import type {
  AnimalGrowth,
  JudgedReading,
  LesionGrowth,
  NextReading,
  WhenOut,
} from '../../growth/animal-growth.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Claw } from '../../record/words.js';

/** How a width is taken: the test it met, in the words of an ulcer. */
export type ClosingKind =
  | 'first'
  | 'as-expected'
  | 'doubtful'
  | 'opening-up'
  | 'held'
  | 'opened-further'
  | 'smaller-than-closing'
  | 'came-back';

/** One width of an ulcer, and what was made of it: what closing would have left, not below 0. Lengths in mm, over all. */
export interface ClosingReading extends Pick<
  JudgedReading,
  'date' | 'visit' | 'by' | 'tool' | 'expectedMm' | 'sdMm' | 'unused'
> {
  readonly widthMm: number;
  readonly lengthMm?: number;
  /** SD of this width, with the other-reader term. */
  readonly sigmaMm: number;
  readonly kind: ClosingKind;
  /** How far off, in SDs: below 0 is wider than expected. */
  readonly z?: number;
  /** How much wider than closing explains, where it opened up. */
  readonly widerByMm?: number;
  /** How fast the margin came in since the reading before, mm a day, from length and width of both; below 0 it went out. */
  readonly marginMmPerDay?: number;
}

/** Why no date is given, the first that holds. */
export type NoClosingDate =
  | 'healed'
  | 'covered'
  | 'same-day-notice'
  | 'joined'
  | 'infected'
  | 'toe-necrosis'
  | 'toe-ulcer-with-pus-or-bone'
  | 'no-width'
  | 'held'
  | 'doubtful'
  | 'by-eye';

/** When an ulcer should have closed, or why no date is given. */
export type ClosingForecast =
  | ({ readonly outcome: 'range' } & WhenOut)
  | {
      readonly outcome: 'none';
      readonly why: NoClosingDate;
      /** A doubtful width: the range if it has opened up. */
      readonly ifOpeningUp?: WhenOut;
    };

/** What the next width should show: mean and 80 %, with reading error; not below 0. One beyond the alarm mark is wider than closing allows. */
export type NextWidth = Omit<NextReading, 'sdMm'>;

/** One ulcer (sole, bulb or toe) with all that was worked out on it. */
export interface UlcerClosing extends Pick<LesionGrowth, 'lesion' | 'code' | 'foot' | 'from'> {
  readonly claw?: Claw;
  readonly readings: readonly ClosingReading[];
  /** How fast it closes: 1 is the reference rate. */
  readonly factor: AnimalGrowth['factor'];
  readonly forecast: ClosingForecast;
  /** Too few widths for a date to be more than rough. */
  readonly rough: boolean;
  /** Each time it was found closed: after the day last seen open (absent where it was not), by the day seen covered or healed. */
  readonly closed: readonly { readonly after?: CalendarDay; readonly by: CalendarDay }[];
  /** Each day it was found open again after having closed. */
  readonly cameBack: readonly CalendarDay[];
  /** What the next width should show on that day; undefined where no date can be given. */
  readonly nextReading: (day: CalendarDay) => NextWidth | undefined;
}

import type { NoForecast, OutRange, ReadingKind, WallLength } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Claw, Foot, LesionState, Tool, WallLine } from '../record/words.js';

/** How far a reading is to be trusted in a drawing, and what stood at that visit. Lengths in mm below the coronet. */
export interface WallBar {
  readonly date: CalendarDay;
  /** Absent where the visit gave no length or only the state. */
  readonly topMm?: number;
  /** Absent where the visit gave no reading at all. */
  readonly kind?: ReadingKind;
  /** True where the reading taught nothing: drawn lighter. */
  readonly unused: boolean;
  readonly state?: LesionState;
  /** Name of the gap this one ran into at that visit. */
  readonly joined?: string;
  /** Length of the bar: the wall measured that day, else the wall in use. */
  readonly wallMm: number;
  readonly wallMeasured: boolean;
  /** The measured wall had been lowered for comfort: drawn, not used. */
  readonly lowered: boolean;
  /** Highest point from which loose wall has been taken off; absent while it still stands. */
  readonly bareFromMm?: number;
  readonly expectedMm?: number;
  /** Half the 80 % range round `expectedMm`. */
  readonly expectedHalfRangeMm?: number;
  readonly ranUpMm?: number;
  readonly lostMonths?: number;
  readonly tool?: Tool;
}

/** What a reading should show on a later day, 80 %. */
export interface ExpectedBar {
  readonly date: CalendarDay;
  readonly meanMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** A stretch of readings over which the top stood still. */
export interface HeldStretch {
  readonly from: CalendarDay;
  readonly to: CalendarDay;
}

/** All that the drawing of one wall gap shows. */
export interface WallStripInput {
  /** Unique on the page. */
  readonly id: string;
  readonly lesion: string;
  readonly foot: Foot;
  readonly claw: Claw;
  readonly line: WallLine;
  readonly wall: WallLength;
  /** Oldest first, one a visit that looked at the lesion. */
  readonly bars: readonly WallBar[];
  readonly held: readonly HeldStretch[];
  /** At most three, before the wall should be whole. */
  readonly expected: readonly ExpectedBar[];
  /** When it should be out; absent with a reason in `noForecast`. */
  readonly out?: OutRange<CalendarDay>;
  readonly ifSoundHornFollows: boolean;
  readonly noForecast?: NoForecast | 'may-be-held';
  /** With a doubtful reading: the range if she has run up. */
  readonly ifRanUp?: OutRange<CalendarDay>;
}

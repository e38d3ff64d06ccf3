import type { CalendarDay } from '../record/calendar-day.js';
import type { BlockMaterial, CarryingClaw, Claw, FixtureEvent, Foot } from '../record/words.js';

/** One event of a block or a wrap with its own day, taken out of its visit. */
export interface FixtureMoment {
  readonly event: FixtureEvent;
  /** The day it happened; for a loss on an unknown day, the day it was found. */
  readonly on: CalendarDay;
  /** The day of the happening is not known, only the day it was found. */
  readonly dayUnknown: boolean;
  /** Position in `animal.visits`, and in that visit's list. */
  readonly visit: number;
  readonly at: number;
  readonly material?: BlockMaterial;
  readonly carryingClaw?: CarryingClaw;
}

/** From one fitting to its end: one block under one claw, or one wrap on one foot. */
export interface FixtureSpan {
  readonly foot: Foot;
  /** The claw that carries the block; absent on a wrap. */
  readonly claw?: Claw;
  /** First day known on. */
  readonly from: CalendarDay;
  /** Fitted by us on that day; else it was there already, since a day that is not known. */
  readonly fitted: boolean;
  readonly material?: BlockMaterial;
  /** Days it was looked at (`checked` or `worn`), oldest first. */
  readonly looks: readonly CalendarDay[];
  readonly worn?: CalendarDay;
  /** Last day it was certainly on. */
  readonly lastKnownOn: CalendarDay;
  /** How it ended; absent while it is on. With a loss on an unknown day, `by` is the day it was found gone. */
  readonly end?: {
    readonly how: 'replaced' | 'lost' | 'removed';
    readonly by: CalendarDay;
    readonly dayUnknown: boolean;
    readonly carryingClaw?: CarryingClaw;
  };
  /** Days on, counted to the end or to the day asked about; the fewest and the most they can have been. */
  readonly days: { readonly atLeast: number; readonly atMost?: number };
  /** Where its first event stands. */
  readonly visit: number;
  readonly at: number;
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';

/** Days from the first to the last, both in; without `to`, not ended or the day not known (`endUnknown`). */
export interface DaySpan {
  readonly from: CalendarDay;
  readonly to?: CalendarDay;
  readonly endUnknown?: boolean;
}

/** What one animal's time line shows: plain days, worked out elsewhere. Any order; lists may be empty. */
export interface TimelineInput {
  /** Unique on the page. */
  readonly id: string;
  /** First and last day of the line; what lies outside is cut. */
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  readonly visits: readonly { readonly date: CalendarDay; readonly kind: 'visit' | 'report' | 'missed' }[];
  readonly gait: readonly {
    readonly date: CalendarDay;
    readonly score: number;
    readonly block: 'on' | 'off' | 'unclear';
  }[];
  /** The scale's name in words, for the line beneath; absent without scores. */
  readonly gaitScale?: string;
  readonly blocks: readonly (DaySpan & { readonly foot: Foot; readonly claw: Claw })[];
  readonly wraps: readonly (DaySpan & { readonly foot: Foot })[];
  /** `to` is the last withheld day. */
  readonly withheld: readonly (DaySpan & { readonly what: 'milk' | 'meat' })[];
  readonly vet: readonly { readonly date: CalendarDay; readonly what: 'asked' | 'answered' }[];
  readonly ranUp: readonly { readonly date: CalendarDay; readonly lesion: string }[];
}

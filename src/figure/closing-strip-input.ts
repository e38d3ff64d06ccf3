import type { CalendarDay } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';

/** One visit to an ulcer. Lengths in mm, over all. */
export interface ClosingBar {
  readonly date: CalendarDay;
  readonly lengthMm?: number;
  readonly widthMm?: number;
  /** How it reads, beyond plainly open. */
  readonly reads?: 'covered' | 'healed' | 'came-back' | 'opening-up' | 'doubtful' | 'held';
  /** The reading taught nothing. */
  readonly unused?: boolean;
}

/** The width a later visit should show, 80 %. */
export interface ExpectedWidth {
  readonly date: CalendarDay;
  readonly meanMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** All that the drawing of one ulcer shows. */
export interface ClosingStripInput {
  /** Unique on the page. */
  readonly id: string;
  readonly lesion: string;
  readonly foot: Foot;
  readonly claw?: Claw;
  /** Oldest first. */
  readonly bars: readonly ClosingBar[];
  readonly expected: readonly ExpectedWidth[];
  /** The date with its range, or why none, as one sentence already worded. */
  readonly outlook?: string;
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { DdStage, GaitScale, LesionCode } from '../record/words.js';

/**
 * How a lesion stands on a day: one word, the first that holds in this order of precedence.
 * `active` and `quiet` are digital dermatitis; `present` a lesion that is no hole; `open` an ulcer with nothing to compare.
 */
export const standingOrder = [
  'infected',
  'still-at-coronet',
  'at-coronet',
  'ran-up',
  'opening-up',
  'held',
  'doubtful',
  'spreading',
  'opened-further',
  'came-back',
  'not-reached',
  'no-change-shown',
  'growing-down',
  'closing',
  'active',
  'quiet',
  'open',
  'present',
  'covered',
  'healed',
  'lasting',
  'joined',
  'not-measured',
] as const;
export type StandingWord = (typeof standingOrder)[number];

/** What a standing rests on: enough to say it in words, nothing worded yet. Lengths in mm. */
export interface StandingEvidence {
  readonly date?: CalendarDay;
  readonly since?: CalendarDay;
  readonly thenMm?: number;
  readonly nowMm?: number;
  readonly expectedLowMm?: number;
  readonly expectedHighMm?: number;
  readonly ranUpMm?: number;
  readonly lostMonths?: number;
  /** Smallest change the two readings can tell apart, mm. */
  readonly tellsMm?: number;
  readonly stage?: DdStage;
  readonly activeLooks?: { readonly active: number; readonly looks: number };
  readonly joinedTo?: string;
}

export interface LesionStanding {
  readonly lesion: string;
  /** Its code at that day: a finding may have renamed it. */
  readonly code: LesionCode;
  readonly standing: StandingWord;
  readonly evidence: StandingEvidence;
}

/** One scored walk. */
export interface GaitScore {
  readonly date: CalendarDay;
  readonly score: number;
  readonly scale: GaitScale;
  /** `unclear` where neither the visit nor the block events tell. */
  readonly block: 'on' | 'off' | 'unclear';
  readonly lame: boolean;
  readonly severe: boolean;
}

/** How she walks: on the block and off it are two different things and are never compared. */
export interface GaitStanding {
  readonly standing:
    'sound' | 'lame-off-block' | 'easier-on-block' | 'lame-on-block' | 'not-lame-not-proved' | 'not-scored';
  readonly last?: GaitScore;
  readonly lastOffBlock?: GaitScore;
  readonly lastOnBlock?: GaitScore;
  readonly scores: readonly GaitScore[];
}

/** How an animal stands on a day. */
export interface CaseStanding {
  readonly lesions: readonly LesionStanding[];
  /** The lesion whose standing comes first in the order of precedence among those not healed; absent without lesions. */
  readonly leading?: LesionStanding;
  readonly gait: GaitStanding;
  /** Set when no episode is open on that day. */
  readonly closed?: { readonly on: CalendarDay; readonly result: string };
}

import type { CalendarDay } from '../record/calendar-day.js';
import type { DdStage, Foot, GaitScale, LesionCode, Tool } from '../record/words.js';
import type { FollowedEpisode } from './episode.js';

/**
 * The status of a lesion on a day: one word, the first that holds in this order of precedence.
 *
 * `active` and `quiet` are digital dermatitis; `present` is a lesion that is no hole; `open` a gap or an ulcer
 * measured once, with nothing to compare. `lower-than-growth` is a top found lower than horn can have grown:
 * another line or landmark was measured, and the clock restarts. What has ended (`healed`, `joined`, `lasting`)
 * is at the end because nothing before it can hold at the same time.
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
  'lower-than-growth',
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

/** What a standing is based on: enough to say it in words, nothing worded yet. Lengths in mm. */
export interface StandingEvidence {
  /** The look the standing is based on; absent where the lesion was never looked at. */
  readonly date?: CalendarDay;
  /** The look it is compared with; of a held gap, since when. */
  readonly since?: CalendarDay;
  readonly thenMm?: number;
  readonly nowMm?: number;
  /** What growth alone would have brought, 80 %: where the top should have been read; of an ulcer its width, not below 0. */
  readonly expectedLowMm?: number;
  readonly expectedHighMm?: number;
  /** Doubtful over weeks, not by one reading: less has come down since `since` than horn should, too little to call it held. */
  readonly mayBeHeld?: boolean;
  /** Doubtful because what was written looks like a slip: the question, as in `4.1 mm? 41 would fit.` */
  readonly asked?: string;
  readonly ranUpMm?: number;
  readonly lostMonths?: number;
  /** Smallest change the two readings can distinguish, mm. */
  readonly tellsMm?: number;
  readonly tool?: Tool;
  /** The two readings were taken with different tools. */
  readonly mixedTools?: boolean;
  /** First reading of the present clock, what it came after, and the change since, where it differs from `since`. */
  readonly start?: {
    readonly date: CalendarDay;
    readonly changeMm: number;
    readonly after: 'first' | 'ran-up' | 'opened-further' | 'at-coronet' | 'another';
  };
  /** How fast an ulcer's margin came in between the last two looks at its length and width, mm a day; below 0 it went out. */
  readonly marginMmPerDay?: number;
  /** Hard dry horn over the open part at the last look. */
  readonly covered?: boolean;
  readonly infected?: boolean;
  readonly stage?: DdStage;
  /** Digital dermatitis: active at so many of the looks at least 28 days apart. */
  readonly activeLooks?: { readonly active: number; readonly looks: number };
  /** Digital dermatitis: how often it was active again after it had been quiet or healed. */
  readonly returns?: number;
  readonly joinedTo?: string;
  readonly againOf?: string;
}

/** The status of one lesion on a day: its word, and what that is based on. */
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
  /** Position in `animal.visits`. */
  readonly visit: number;
  readonly score: number;
  readonly scale: GaitScale;
  /** `unclear` where neither the visit nor the block events tell. */
  readonly block: 'on' | 'off' | 'unclear';
  readonly lame: boolean;
  readonly severe: boolean;
}

/** How she walks in a word, worst first. */
export const walkOrder = [
  'lame-off-block',
  'lame-block-unclear',
  'lame-on-block',
  'easier-on-block',
  'not-lame-not-proved',
  'not-scored',
  'sound',
] as const;

/**
 * How she walks: on the block and off it are two different things and are never compared.
 *
 * `sound` is the only word for a walk that counts: below the lame mark, no block on, at least
 * 7 days after the last block came off. `not-lame-not-proved` is below the lame mark but too soon, or with a
 * block on or perhaps on.
 */
export interface GaitStanding {
  readonly standing: (typeof walkOrder)[number];
  readonly last?: GaitScore;
  readonly lastOffBlock?: GaitScore;
  readonly lastOnBlock?: GaitScore;
  /** Oldest first, of the open episode; of the last one where none is open. */
  readonly scores: readonly GaitScore[];
  /** A block is on her on that day, as far as is recorded. */
  readonly blockNow: 'on' | 'off';
  /** Days from the last block's coming off to the last score; absent where she had none or one was on. */
  readonly daysOffBlock?: number;
  /** The other foot of the pair, not seen at the last lifted visit while she is lame. */
  readonly otherFoot?: Foot;
}

/** The status of an animal on a day. */
export interface CaseStanding {
  /** In the order declared. */
  readonly lesions: readonly LesionStanding[];
  /** The lesion whose standing comes first in the order of precedence among those not healed; absent without lesions. */
  readonly leading?: LesionStanding;
  readonly gait: GaitStanding;
  /** The lameness episode the standing belongs to: the open one, else the last. */
  readonly episode: FollowedEpisode;
  /** Set when no episode is open on that day. */
  readonly closed?: { readonly on: CalendarDay; readonly result: string };
}

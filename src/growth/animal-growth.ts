import type { CalendarDay } from '../record/calendar-day.js';
import type { LesionCode } from '../record/words.js';
import type { LinePlace, LineReading } from './growth-line.js';
import type { Prior } from './what-is-known.js';

/** How a reading is taken: the test it met, in the words of the model. */
export type ReadingKind =
  | 'first'
  | 'grew'
  | 'doubtful'
  | 'ran-up'
  | 'held'
  | 'opened-further'
  | 'at-coronet'
  | 'lower-than-growth'
  | 'not-reached'
  | 'does-not-fit';

/** One reading of one line, and what the model made of it. */
export interface JudgedReading extends Pick<
  LineReading,
  'date' | 'visit' | 'by' | 'tool' | 'topFound' | 'asked'
> {
  /** mm below the coronet (a mark: its distance from the coronet). */
  readonly topMm?: number;
  /** As it is shown: a reading that ran up and looks like a slip is doubtful until somebody has answered. */
  readonly kind: ReadingKind;
  /** What the sums take it for, where that is something else. */
  readonly takenAs?: ReadingKind;
  /** What growth alone would have brought, its SD with reading error, and how far off; absent on first and not-reached. */
  readonly expectedMm?: number;
  readonly sdMm?: number;
  readonly z?: number;
  /** SD of this reading, mm, with the other-reader term. */
  readonly sigmaMm?: number;
  /** mm the top ran up beyond growth, and the months that costs; absent where it cannot be sized. */
  readonly ranUpMm?: number;
  readonly lostMonths?: number;
  /** True where the reading taught nothing: pending, dropped, or inside a held stretch. */
  readonly unused: boolean;
}

/** Why no date is given, one reason, the first that holds. */
export type NoForecast =
  | 'healed'
  | 'lasting'
  | 'same-day-notice'
  | 'joined'
  | 'infected'
  | 'bone-or-necrosis'
  | 'no-length'
  | 'ran-up-unmeasured'
  | 'not-reached'
  | 'held'
  | 'doubtful'
  | 'starts-at-coronet'
  | 'by-eye';

/** Days after `from` at which the chance of being out reaches 10, 50 and 90 %; null beyond five years. */
export type OutRange<T> = Readonly<{ early: T | null; best: T | null; late: T | null }>;

/** A range of days after a day, not rounded, and as dates. */
export type WhenOut = Readonly<{ from: CalendarDay; days: OutRange<number>; out: OutRange<CalendarDay> }>;

/** The same where the dates may not be given. */
export type PerhapsUndated = Omit<WhenOut, 'out'> & Partial<Pick<WhenOut, 'out'>>;

/** At the coronet only the range is shown, as what follows if sound horn does. */
type IfSound = Readonly<{ ifSoundHornFollows: boolean }>;

/** When the gap should have grown out, or why no date is given. */
export type Forecast =
  | ({ readonly outcome: 'range' } & WhenOut & IfSound)
  | {
      readonly outcome: 'none';
      readonly why: NoForecast;
      /** By eye alone, or under a same-day notice: the sums, of which no day is given; of what looks like a slip, as it stands. */
      readonly sums?: PerhapsUndated & IfSound;
      /** A doubtful reading: the range if she has run up; by eye alone without its days. */
      readonly ifRanUp?: PerhapsUndated;
    };

/** Wall length in use for a line. */
export interface WallLength {
  readonly mm: number;
  readonly sdMm: number;
  readonly source: 'measured' | 'reference';
  /** Day and lesion it was measured under, whether on standing wall beside that gap, and what is asked about it. */
  readonly measured?: {
    readonly date: CalendarDay;
    readonly under: string;
    readonly beside: boolean;
    readonly asked?: string;
  };
  /** Reference lengths are adult Holsteins': set for heifers and small breeds. */
  readonly likelyTooLong: boolean;
}

/** A point on the way down: day, mean and SD of the top, mm below the coronet (SD without reading error). */
export type ExpectedPoint = Readonly<{ date: CalendarDay; meanMm: number; sdMm: number }>;

/** What the next reading should show. Range and alarm mark are not below 0; an alarm mark of 0 cannot be undercut. */
export interface NextReading extends ExpectedPoint {
  /** SD with reading error. */
  readonly sdMm: number;
  /** The 80 % range. */
  readonly lowMm: number;
  readonly highMm: number;
  /** A reading below it is higher up than growth allows: doubtful, ran up or held. */
  readonly alarmMm: number;
}

/** A wall lesion's line with all that was worked out on it. */
export interface LesionGrowth extends LinePlace {
  readonly lesion: string;
  readonly code: LesionCode;
  /** Reference rate of this line in this animal, mm per 30.4375 days. */
  readonly referenceMmPerMonth: number;
  readonly readings: readonly JudgedReading[];
  /** Day of the last used reading. */
  readonly from?: CalendarDay;
  readonly wall: WallLength;
  readonly forecast: Forecast;
  /** What is asked about the latest reading and the wall in use, where one of them looks like a slip. */
  readonly asked?: string;
  /** Standing held at the latest reading: since when, how many SDs short of growth, and whether that is enough to say so. */
  readonly heldNow?: { readonly since: CalendarDay; readonly z: number; readonly sure: boolean };
  /** No sound horn has come yet: two readings at the coronet running. */
  readonly stillAtCoronet: boolean;
  /** The wider spread since the width before, mm, where it passed what a reading can tell. */
  readonly spreading?: { readonly since: CalendarDay; readonly fromMm: number; readonly toMm: number };
  /** The top on a later day, all lines counted; undefined while the line has no used reading. */
  readonly expectedOn: (day: CalendarDay) => ExpectedPoint | undefined;
  /** What the next reading should show on that day, 80 %, with the tool last used. */
  readonly nextReading: (day: CalendarDay) => NextReading | undefined;
}

/** A wall lesion declared without claw or line, so never measured: no date can be given for it. */
export type UnplacedLesion = Pick<LesionGrowth, 'lesion' | 'code' | 'foot'> & { readonly why: NoForecast };

/** A growth mark's line. */
export interface MarkGrowth extends LinePlace, Pick<LesionGrowth, 'referenceMmPerMonth' | 'readings'> {
  readonly mark: string;
}

/** When the last of her gaps should be out. */
export type CaseForecast =
  | Extract<Forecast, { outcome: 'range' }>
  | {
      readonly outcome: 'none';
      readonly because: readonly { readonly lesion: string; readonly why: NoForecast }[];
    };

/** One animal's growth, solved. */
export interface AnimalGrowth {
  /** Growth factor after all readings: 1 = reference rate. */
  readonly factor: { readonly mean: number; readonly variance: number };
  /** The prior it started from. */
  readonly prior: Prior;
  /** In the order declared. Only wall lesions (WL WLF WLA HFH HFA HFV). */
  readonly lesions: readonly LesionGrowth[];
  /** Wall lesions declared without claw or line; they count in `case`. */
  readonly unplaced: readonly UnplacedLesion[];
  readonly marks: readonly MarkGrowth[];
  readonly case: CaseForecast;
}

import { type CalendarDay, calendarDayOf, dayNumber } from '../record/calendar-day.js';
import type { Tool, TopFound, Hemisphere, Housing, Claw, Foot, WallLine } from '../record/words.js';
import { type Farm, herdOn } from '../record/farm.js';
import { given } from '../record/given.js';
import type { Animal } from '../record/animal.js';
import { growthNumbers } from '../reference/growth-numbers.js';

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

/** What of a farm bears on the growth of horn. */
export interface GrowingConditions {
  readonly hemisphere?: Hemisphere;
  /** How the cows are kept on a day; undefined where nobody wrote it down. */
  readonly housingOn: (day: CalendarDay) => Housing | undefined;
}

/**
 * Reads the growing conditions off a farm.
 *
 * Shape:   a farm → the hemisphere and the housing in force on any day
 * Valid:   one herd map holds always; of a list, the period with the latest `from` up to the day
 * Checked: tests/growth/growing-conditions.test.ts
 * @example growingConditions({ farm: 'Quernholt', herd: { housing: 'grazed' } }).housingOn('2026-05-01') // → 'grazed'
 */
export function growingConditions(farm: Pick<Farm, 'herd' | 'hemisphere'>): GrowingConditions {
  const { hemisphere } = farm;
  return { ...given({ hemisphere }), housingOn: (day) => herdOn(farm, day)?.housing };
}

/** Where on her a line runs. */
export type LinePlace = Readonly<{ foot: Foot; claw: Claw; line: WallLine }>;

/** Which lactation she is in, as far as it changes the growth of horn. */
type Lactation = 'first' | 'second' | 'later' | 'unknown';

/**
 * Her lactation on a day. A heifer that has not calved counts as in her first.
 *
 * Valid:   calvings on or before the day, with those before the record began; `unknown` where no calvings are written
 * Checked: tests/growth/reference-rate.test.ts
 * @example lactationOn({ calvings: ['2024-03-01', '2025-03-09'] }, '2025-01-01') // → 'first'
 */
export function lactationOn(animal: Pick<Animal, 'calvings' | 'calved-before'>, day: CalendarDay): Lactation {
  const calved = timesCalved(animal, day);
  if (calved === undefined) return 'unknown';
  if (calved <= 1) return 'first';
  return calved === 2 ? 'second' : 'later';
}

/** How often she has calved by the end of a day; undefined where no calvings are written, `[]` is none. */
export function timesCalved(
  animal: Pick<Animal, 'calvings' | 'calved-before'>,
  day: CalendarDay,
): number | undefined {
  if (animal.calvings === undefined) return undefined;
  return animal.calvings.filter((calving) => calving <= day).length + (animal['calved-before'] ?? 0);
}

/**
 * How fast horn comes down on a line of an average cow.
 *
 * Unit:    mm per month of 30.4375 days
 * Source:  shared/growth.json `lines`, `claw`, `foot`, `lactation`
 * Checked: tests/growth/reference-rate.test.ts
 * @example referenceRate({ line: 'heel', claw: 'outer', foot: 'LH', lactation: 'unknown' }) // → 6
 */
export function referenceRate({
  line,
  claw,
  foot,
  lactation,
}: LinePlace & { readonly lactation: Lactation }): number {
  const { lines, claw: claws, foot: ends, lactation: lactations } = growthNumbers;
  const end = ends[foot === 'LF' || foot === 'RF' ? 'front' : 'hind'];
  return lines[line].rate.value * claws[claw].value * end.value * lactations[lactation].value;
}

const month = growthNumbers.month.value;
const turn = (2 * Math.PI) / growthNumbers.year.value;
const peakDay = {
  north: dayNumber(growthNumbers.season.peak.north),
  south: dayNumber(growthNumbers.season.peak.south),
};

/**
 * How much horn time passes from a day on, after so many days, and how fast it comes then, per day: more of it in summer
 * than in winter.
 *
 * Growth is fastest at the summer solstice and swings about its mean as a cosine over the year. The
 * swing is that of the housing in force on the day it starts from, so that a later change on the
 * farm leaves a finished interval as it was. With housing or hemisphere unknown there is no season.
 *
 * Unit:    growth-months: months of 30.4375 days at the mean rate of the year
 * Source:  shared/growth.json `season`; the cosine summed exactly
 * Checked: tests/hand-worked/season.test.ts
 * @example seasonFrom(dayNumber('2026-01-01'), { housingOn: () => undefined }).monthsAfter(60.875) // → 2
 */
export function seasonFrom(day: number, conditions: GrowingConditions) {
  const swing = swingOn(calendarDayOf(day), conditions);
  const peak = peakDay[conditions.hemisphere ?? 'north'];
  const phase = (days: number) => turn * (day + days - peak);
  const already = Math.sin(phase(0));
  return {
    monthsAfter: (days: number) => (days + (swing / turn) * (Math.sin(phase(days)) - already)) / month,
    monthsPerDayAfter: (days: number) => (1 + swing * Math.cos(phase(days))) / month,
  };
}

function swingOn(day: CalendarDay, conditions: GrowingConditions): number {
  if (conditions.hemisphere === undefined) return growthNumbers.season.unknown.value;
  return growthNumbers.season[conditions.housingOn(day) ?? 'unknown'].value;
}

/**
 * The part of a growing stretch's variance that comes of horn growing unevenly, mm².
 *
 * Unit:    mmPerMonth, days → mm²
 * Source:  shared/growth.json `uneven`
 * Checked: tests/hand-worked/one-line.test.ts
 * @example unevenGrowth(6, 30.4375) // → 0.36
 */
export function unevenGrowth(mmPerMonth: number, days: number): number {
  return ((growthNumbers.uneven.value * mmPerMonth) ** 2 * days) / month;
}

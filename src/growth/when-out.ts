import { largest } from '../statistics/estimate.js';
import { type CalendarDay, addDays, calendarDayOf, dayNumber } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { firstReach } from '../statistics/first-reach.js';
import { normalQuantile } from '../statistics/normal.js';
import type {
  AnimalGrowth,
  JudgedReading,
  LesionGrowth,
  NextReading,
  NoForecast,
  OutRange,
  PerhapsUndated,
  WhenOut,
} from './animal-growth.js';
import { type GrowingConditions, seasonFrom, unevenGrowth } from './growth-line.js';
import { type Departure, type ExpectedLength, expectedLength } from './what-is-known.js';
import type { Animal } from '../record/animal.js';
import type { WallLine } from '../record/words.js';
import { given } from '../record/given.js';

/** The top of a gap on its way to the ground, from a day on. */
export interface WayDown {
  /** Day number from which it is carried. */
  readonly from: number;
  /** The top so many days on: mean, mm, and variance, mm², without reading error. */
  readonly topAfter: (days: number) => ExpectedLength;
  /** How many SDs the mean has passed the ground by: the normal chance of it is the chance of being out. */
  readonly pastGround: (days: number) => number;
  /** How fast that rises, per day. */
  readonly pastGroundPerDay: (days: number) => number;
}

/**
 * Sets a top on its way down from its last used reading.
 *
 * Unit:    mm, days
 * Source:  out once the top is at or below the wall's length, both normal
 * Checked: tests/growth/when-out.test.ts (slope against differences), tests/hand-worked
 */
export function wayDown(
  from: number,
  departure: Departure,
  wall: { readonly mm: number; readonly sdMm: number },
  conditions: GrowingConditions,
): WayDown {
  const season = seasonFrom(from, conditions);
  const uneven = unevenGrowth(departure.referenceRate, 1);
  const topAfter = (days: number) => expectedLength(departure, { days, months: season.monthsAfter(days) });
  const gap = (days: number) => {
    const { mean, variance } = topAfter(days);
    return { past: mean - wall.mm, sd: Math.sqrt(variance + wall.sdMm ** 2) };
  };
  return {
    from,
    topAfter,
    pastGround: (days) => {
      const { past, sd } = gap(days);
      return past / sd;
    },
    pastGroundPerDay: (days) => {
      const { past, sd } = gap(days);
      const months = season.monthsAfter(days);
      const pace = season.monthsPerDayAfter(days);
      const variancePerDay = 2 * pace * (departure.mmWithRate + months * departure.rateVariance) + uneven;
      return (departure.rate * pace) / sd - (past * variancePerDay) / (2 * sd ** 3);
    },
  };
}

const { early, best, late, horizon, step } = growthNumbers.forecast;

/** The first day on which a course reaches a chance; null where it does not within five years. */
function reach(course: Parameters<typeof firstReach>[0], chance: number, from = 0): number | null {
  return firstReach(course, normalQuantile(chance), { from, to: horizon.value, step: step.value }) ?? null;
}

/**
 * When all the given gaps should have grown out: the first moment at which the chance that the
 * slowest of them is out reaches 10, 50 and 90 %, from the latest of their readings on.
 *
 * Unit:    days, not rounded; dates are the day + the days rounded up
 * Valid:   at least one way down; null where it is not reached within five years
 * Checked: tests/growth/growth-cases.test.ts, tests/growth/when-out.test.ts
 */
export function whenOut(ways: readonly WayDown[]): WhenOut {
  const from = largest(ways.map((way) => way.from));
  const slowestAt = (days: number) => {
    let slowest = ways[0]!;
    for (const way of ways) {
      if (way.pastGround(days + from - way.from) < slowest.pastGround(days + from - slowest.from))
        slowest = way;
    }
    return slowest;
  };
  const onWay = (pick: 'pastGround' | 'pastGroundPerDay') => (days: number) => {
    const way = slowestAt(days);
    return way[pick](days + from - way.from);
  };
  const course = { at: onWay('pastGround'), slope: onWay('pastGroundPerDay') };
  const first = reach(course, early.value);
  const middle = first === null ? null : reach(course, best.value, first);
  const last = middle === null ? null : reach(course, late.value, middle);
  const fromDay = calendarDayOf(from);
  const dated = (days: number | null) => (days === null ? null : addDays(fromDay, Math.ceil(days)));
  return {
    from: fromDay,
    days: { early: first, best: middle, late: last },
    out: { early: dated(first), best: dated(middle), late: dated(last) },
  };
}

/** Days on a way down until it is as likely out as not: the best day of `whenOut`, found alone. */
export function likelyOutAfter({ pastGround: at, pastGroundPerDay: slope }: WayDown): number | null {
  return reach({ at, slope }, best.value);
}

/** Days from the day a way down starts to another day. */
export function daysOn(way: WayDown, day: CalendarDay): number {
  return dayNumber(day) - way.from;
}

/** One reading as given out. */
type ReadingEntry = Pick<JudgedReading, 'date' | 'topMm' | 'kind' | 'asked' | 'expectedMm' | 'sdMm' | 'z'>;

/** A range as given out: days after `from`, not rounded, and dates; no dates where none may be given. */
type RangeEntry = Omit<PerhapsUndated, 'days'> & { readonly outAfterDays: OutRange<number> };

/** One wall gap with a reading, as `growdown forecast --json` gives it out. Lengths mm, variances mm². */
export interface ForecastEntry extends Partial<RangeEntry> {
  readonly farm: string;
  /** The animal's slug; its number on the farm is `number`. */
  readonly animal: string;
  readonly number: string;
  readonly lesion: string;
  readonly line: WallLine;
  readonly readings: readonly ReadingEntry[];
  /** Mean and variance of her growth factor after all readings. */
  readonly factor: AnimalGrowth['factor'];
  readonly wallMm: number;
  readonly wallSdMm: number;
  readonly wallSource: 'measured' | 'reference';
  readonly ifSoundHornFollows?: boolean;
  /** Where the top is six weeks after `from`, without reading error. */
  readonly inSixWeeks?: { readonly mean: number; readonly variance: number };
  readonly why?: NoForecast;
  readonly held?: Omit<NonNullable<LesionGrowth['heldNow']>, 'sure'>;
  readonly ifRanUp?: RangeEntry;
  readonly nextReading?: Pick<NextReading, 'date' | 'meanMm' | 'sdMm'>;
}

/** Whose growth it is, and the day she is lifted next if that is known. */
type EntryOf = Readonly<{ farm: string; slug: string; animal: Animal; nextLift?: CalendarDay | undefined }>;

/**
 * The entries of one animal, sorted by lesion: one for each wall gap that has a reading.
 *
 * Checked: tests/growth/growth-cases.test.ts, tests/growth/forecast-entry.test.ts
 */
export function forecastEntries(of: EntryOf, growth: AnimalGrowth): ForecastEntry[] {
  return growth.lesions
    .filter(({ readings }) => readings.length > 0)
    .map((lesion) => forecastEntry(of, growth, lesion))
    .sort((a, b) => (a.lesion < b.lesion ? -1 : 1));
}

function forecastEntry(
  { farm, slug, animal, nextLift }: EntryOf,
  { factor: { mean, variance } }: AnimalGrowth,
  lesion: LesionGrowth,
): ForecastEntry {
  const next = nextLift === undefined ? undefined : lesion.nextReading(nextLift);
  return {
    farm,
    animal: slug,
    number: animal.animal,
    lesion: lesion.lesion,
    line: lesion.line,
    readings: lesion.readings.map(({ date, topMm, kind, takenAs, asked, expectedMm, sdMm, z }) => ({
      date,
      ...given({ topMm }),
      kind: takenAs ?? kind,
      ...given({ asked, expectedMm, sdMm, z }),
    })),
    factor: { mean, variance },
    wallMm: lesion.wall.mm,
    wallSdMm: lesion.wall.sdMm,
    wallSource: lesion.wall.source,
    ...outlook(lesion),
    ...(next && { nextReading: { date: next.date, meanMm: next.meanMm, sdMm: next.sdMm } }),
  };
}

function outlook({ forecast, heldNow, expectedOn }: LesionGrowth): Partial<ForecastEntry> {
  const sums = forecast.outcome === 'none' ? forecast.sums : forecast;
  // What is only asked about is given out as it stands, with the question beside its reading.
  const none = forecast.outcome === 'none' && sums?.out === undefined ? forecast : undefined;
  const ahead = sums && expectedOn(addDays(sums.from, growthNumbers.forecast.lookAhead.value));
  return {
    ...(sums ? { ...rangeEntry(sums), ifSoundHornFollows: sums.ifSoundHornFollows } : {}),
    ...(ahead ? { inSixWeeks: { mean: ahead.meanMm, variance: ahead.sdMm ** 2 } } : {}),
    ...(none ? { why: none.why } : {}),
    ...(none?.why === 'held' && heldNow ? { held: heldNow } : {}),
    ...(none?.ifRanUp ? { ifRanUp: rangeEntry(none.ifRanUp) } : {}),
  };
}

function rangeEntry({ from, days, out }: PerhapsUndated): RangeEntry {
  return { from, outAfterDays: days, ...given({ out }) };
}

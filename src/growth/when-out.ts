import { largest } from '../statistics/extremes.js';
import { type CalendarDay, addDays, calendarDayOf, dayNumber } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { firstReach } from '../statistics/first-reach.js';
import { normalQuantile } from '../statistics/normal-quantile.js';
import type { OutRange } from './animal-growth.js';
import type { GrowingConditions } from './growing-conditions.js';
import { seasonFrom, unevenGrowth } from './season.js';
import { type Departure, type ExpectedLength, expectedLength } from './what-is-known.js';

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

/** A range of days after a day, and as dates; null beyond five years. */
export interface WhenOut {
  readonly from: CalendarDay;
  readonly days: OutRange<number>;
  readonly out: OutRange<CalendarDay>;
}

const { early, best, late, horizon, step } = growthNumbers.forecast;
const levels = {
  early: normalQuantile(early.value),
  best: normalQuantile(best.value),
  late: normalQuantile(late.value),
};

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
  const reach = (level: number, since: number | null) =>
    since === null
      ? null
      : (firstReach(course, level, { from: since, to: horizon.value, step: step.value }) ?? null);
  const first = reach(levels.early, 0);
  const middle = reach(levels.best, first);
  const last = reach(levels.late, middle);
  const fromDay = calendarDayOf(from);
  const dated = (days: number | null) => (days === null ? null : addDays(fromDay, Math.ceil(days)));
  return {
    from: fromDay,
    days: { early: first, best: middle, late: last },
    out: { early: dated(first), best: dated(middle), late: dated(last) },
  };
}

/** Days on a way down until it is as likely out as not: the best day of `whenOut`, found alone. */
export function likelyOutAfter(way: WayDown): number | null {
  const course = { at: way.pastGround, slope: way.pastGroundPerDay };
  return firstReach(course, levels.best, { from: 0, to: horizon.value, step: step.value }) ?? null;
}

/** Days from the day a way down starts to another day. */
export function daysOn(way: WayDown, day: CalendarDay): number {
  return dayNumber(day) - way.from;
}

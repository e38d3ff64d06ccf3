import { type CalendarDay, calendarDayOf, dayNumber } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { GrowingConditions } from './growing-conditions.js';

/** The season as it runs on from a day: growth-months after so many days, and how fast they come. */
export interface SeasonFrom {
  readonly monthsAfter: (days: number) => number;
  /** Growth-months per day, so many days on. */
  readonly monthsPerDayAfter: (days: number) => number;
}

const month = growthNumbers.month.value;
const turn = (2 * Math.PI) / growthNumbers.year.value;
const peakDay = {
  north: dayNumber(growthNumbers.season.peak.north),
  south: dayNumber(growthNumbers.season.peak.south),
};

/**
 * How much horn time passes from a day on: more of it in summer than in winter.
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
export function seasonFrom(day: number, conditions: GrowingConditions): SeasonFrom {
  const swing = swingOn(calendarDayOf(day), conditions);
  if (swing === 0) return { monthsAfter: (days) => days / month, monthsPerDayAfter: () => 1 / month };
  const peak = peakDay[conditions.hemisphere ?? 'north'];
  const phase = (days: number) => turn * (day + days - peak);
  const already = Math.sin(phase(0));
  return {
    monthsAfter: (days) => (days + (swing / turn) * (Math.sin(phase(days)) - already)) / month,
    monthsPerDayAfter: (days) => (1 + swing * Math.cos(phase(days))) / month,
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

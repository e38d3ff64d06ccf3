import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { type Costs, costsOf } from './costs.js';
import { milkWithheld } from './milk-withheld.js';
import { workDone } from './work-done.js';

/** All cases of a farm in one calendar year. */
export interface YearCosts {
  readonly year: string;
  readonly costs: Costs;
}

/**
 * What a farm's cases came to, year by year, oldest first: work by its own day, milk by the day it was withheld.
 *
 * Shape:   a farm, the business, a day → one entry a year in which there was something; none without prices
 * Checked: tests/money/year-costs.test.ts (by hand)
 */
export function yearCosts(business: Business, record: FarmRecord, today: CalendarDay): YearCosts[] {
  if (!business.prices) return [];
  const { farm } = record;
  const hers = record.cases.map(({ animal }) => {
    const pieces = workDone(animal, record.slug, today);
    return { pieces, milk: milkWithheld(animal, pieces, farm['milkings-a-day'], today) };
  });
  const pieces = hers.flatMap((one) => one.pieces);
  const days = hers.flatMap(({ milk }) => milk.days);
  const notKnown = hers.flatMap(({ milk }) => milk.notKnown);
  const years = new Set([...pieces.map(({ date }) => date), ...days].map(yearOf));
  return [...years].sort().flatMap((year) => {
    const within = (all: readonly CalendarDay[]) => all.filter((day) => yearOf(day) === year).length;
    const costs = costsOf(
      { business, farm },
      pieces.filter(({ date }) => yearOf(date) === year),
      { days: within(days), notKnown: within(notKnown) },
    );
    return costs ? [{ year, costs }] : [];
  });
}

function yearOf(day: CalendarDay): string {
  return day.slice(0, 4);
}

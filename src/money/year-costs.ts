import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { type Costs, costsWithin, farmWork } from './costs.js';

/** All cases of a farm in one calendar year. */
export interface YearCosts {
  readonly year: string;
  readonly costs: Costs;
}

/**
 * What a farm's cases came to, year by year, oldest first.
 *
 * Shape:   a farm, the business, a day → one entry a year in which there was something; none without prices
 * Checked: tests/money/case-costs.test.ts (by hand)
 */
export function yearCosts(business: Business, record: FarmRecord, today: CalendarDay): YearCosts[] {
  if (!business.prices) return [];
  const work = farmWork(record, today);
  const days = work.flatMap(({ pieces, milk }) => [...pieces.map(({ date }) => date), ...milk.days]);
  const years = [...new Set(days.map(yearOf))].sort();
  return years.flatMap((year) => {
    const costs = costsWithin({ business, farm: record.farm }, work, (day) => yearOf(day) === year);
    return costs ? [{ year, costs }] : [];
  });
}

function yearOf(day: CalendarDay): string {
  return day.slice(0, 4);
}

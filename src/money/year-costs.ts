import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { type Costs, costsWithin, farmWork, type CaseCosts } from './costs.js';
import type { Animal } from '../record/animal.js';
import { sumAsText } from './hundredths.js';

/** All cases of a farm in one calendar year. */
type YearCosts = Readonly<{ year: string; costs: Costs }>;

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

/** One animal's line: her case, or her part of a period. */
export interface AnimalCosts extends Partial<Pick<CaseCosts, 'toFinish'>> {
  readonly slug: string;
  readonly animal: Animal;
  readonly costs: Costs;
  /** Since when, and whether it is over; absent in a period. */
  readonly since?: string;
  readonly closed?: boolean;
}

/** What a farm's cases come to, as the command gives it out. */
export interface FarmCosts {
  readonly farm: string;
  readonly name: string;
  readonly currency: string;
  readonly animals: readonly AnimalCosts[];
  readonly years: readonly YearCosts[];
  /** Of a period: all its animals together. */
  readonly total?: Costs;
}

/**
 * A total as decimal text. Undefined where there was something and nothing of it has a price: 0.00 would say that it cost nothing.
 *
 * Checked: tests/cli/costs.test.ts
 */
export function totalOf({ lines, total, notInSum }: Costs): string | undefined {
  return lines.length === 0 && notInSum.length > 0 ? undefined : sumAsText(total);
}

/**
 * The same to print.
 *
 * Checked: tests/money/costs.test.ts
 */
export function totalAsText(costs: Costs): string {
  return totalOf(costs) ?? '–';
}

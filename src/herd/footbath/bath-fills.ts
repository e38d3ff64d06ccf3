import { addDays, daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import type { FootbathPeriod } from '../../record/farm.js';
import { twelveMonthsTo } from '../../record/period.js';
import { footbathNumbers } from '../../reference/footbath-numbers.js';

/** What must be written before a bath's product a year can be worked out. */
export type MissingOfBath = 'strength' | 'litres' | 'cows-per-fill' | 'times-a-week' | 'cows';

/** How much of a product one bath takes; what cannot be worked out is absent, and `missing` says why. */
export interface BathFills {
  /** kg of product in one fill. */
  readonly kgPerFill?: number;
  /** Fills for one week of bathing. */
  readonly fillsPerWeek?: number;
  /** Weeks it is bathed in a year: those of the period where both its ends are written and less than a year apart, else 52. */
  readonly weeksAYear: number;
  readonly fillsAYear?: number;
  readonly kgAYear?: number;
  readonly missing: readonly MissingOfBath[];
}

/**
 * Fills and kilograms of one footbath period.
 *
 * Why the weeks: a bath with both ends written, such as the housed months, is taken to run so once a year; one that
 * is open at an end runs all the year. Part fills count as parts: over a year they add up to whole ones.
 *
 * Shape:   a period and the cows that go through it → kg a fill, fills, kg a year
 * Unit:    strength in kg per 100 litres, as % is used of a bath; kg; weeks of 7 days
 * Valid:   `cows-per-fill` above 0; 0 counts as not written
 * Source:  shared/footbath.json
 * Checked: tests/herd/footbath.test.ts (by hand)
 */
export function bathFills(bath: FootbathPeriod, cows: number | undefined): BathFills {
  const { strength, litres, 'times-a-week': times } = bath;
  const perFill = bath['cows-per-fill'] || undefined;
  const kgPerFill = litres === undefined || strength === undefined ? undefined : (litres * strength) / 100;
  const isKnown = cows !== undefined && times !== undefined && perFill !== undefined;
  const fillsPerWeek = isKnown ? (cows * times) / perFill : undefined;
  const weeksAYear = weeksOf(bath);
  const fillsAYear = fillsPerWeek === undefined ? undefined : fillsPerWeek * weeksAYear;
  const missing: [MissingOfBath, number | undefined][] = [
    ['strength', strength],
    ['litres', litres],
    ['cows-per-fill', perFill],
    ['times-a-week', times],
    ['cows', cows],
  ];
  return {
    ...(kgPerFill === undefined ? {} : { kgPerFill }),
    ...(fillsPerWeek === undefined ? {} : { fillsPerWeek }),
    weeksAYear,
    ...(fillsAYear === undefined ? {} : { fillsAYear }),
    ...(fillsAYear === undefined || kgPerFill === undefined ? {} : { kgAYear: fillsAYear * kgPerFill }),
    missing: missing.flatMap(([name, value]) => (value === undefined ? [name] : [])),
  };
}

function weeksOf({ from, to }: FootbathPeriod): number {
  const wholeYear = footbathNumbers.weeksAYear.value;
  if (!from || !to) return wholeYear;
  return Math.min(wholeYear, Math.max(0, daysBetween(from, addDays(to, 1)) / 7));
}

/**
 * Weeks of a period that fall within the 12 months up to a day, that day included.
 *
 * Valid:   a period without `from` ran all the time before
 * Checked: tests/herd/footbath.test.ts
 */
export function weeksInLastYear({ from, to }: FootbathPeriod, today: CalendarDay): number {
  const start = twelveMonthsTo(today).from;
  const first = from !== undefined && from > start ? from : start;
  const last = to !== undefined && to < today ? to : today;
  return Math.max(0, daysBetween(first, last) + 1) / 7;
}

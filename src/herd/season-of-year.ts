import type { CalendarDay } from '../record/calendar-day.js';
import type { Hemisphere } from '../record/words.js';

/** Quarters of the year by their first months, December first: the seasons as the weather has them. */
export const quarters = ['12', '03', '06', '09'] as const;
export type Quarter = (typeof quarters)[number];

export type Season = 'winter' | 'spring' | 'summer' | 'autumn';

const northern: Readonly<Record<Quarter, Season>> = {
  '12': 'winter',
  '03': 'spring',
  '06': 'summer',
  '09': 'autumn',
};
const southern: Readonly<Record<Quarter, Season>> = {
  '12': 'summer',
  '03': 'autumn',
  '06': 'winter',
  '09': 'spring',
};

/** The quarter a day falls in. @example quarterOf('2026-02-28') // → '12' */
export function quarterOf(day: CalendarDay): Quarter {
  return quarters[Math.floor((Number(day.slice(5, 7)) % 12) / 3)]!;
}

/** The season a quarter is; undefined where the hemisphere is not known. @example seasonOf('12', 'south') // → 'summer' */
export function seasonOf(quarter: Quarter, hemisphere: Hemisphere | undefined): Season | undefined {
  return hemisphere && (hemisphere === 'north' ? northern : southern)[quarter];
}

/**
 * The first days of quarters between two days, both left out, from early to late.
 * @example quarterStarts('2026-01-15', '2026-07-01') // → ['2026-03-01', '2026-06-01']
 */
export function quarterStarts(after: CalendarDay, before: CalendarDay): CalendarDay[] {
  const starts: CalendarDay[] = [];
  for (let year = Number(after.slice(0, 4)); year <= Number(before.slice(0, 4)); year += 1)
    for (const each of ['03', '06', '09', '12'].map((month) => `${year}-${month}-01`)) starts.push(each);
  return starts.filter((day) => day > after && day < before);
}

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

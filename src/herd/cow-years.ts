import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { herdNumbers } from '../reference/sourced.js';

/** Days from `from` up to, not with, `until`, all with the same number of cows; undefined where nobody wrote it. */
export interface HerdStretch {
  readonly from: CalendarDay;
  readonly until: CalendarDay;
  readonly cows: number | undefined;
}

/**
 * The herd's size over some days, as a run of stretches.
 *
 * Valid:   one herd map holds always; of a list, the period with the latest `from` up to the day, and a period without
 *          `cows` leaves the number unknown rather than that of the one before
 * Checked: tests/herd/cow-years.test.ts
 */
export function herdStretches(
  farm: Pick<Farm, 'herd'>,
  from: CalendarDay,
  until: CalendarDay,
): HerdStretch[] {
  const { herd } = farm;
  if (!Array.isArray(herd)) return from < until ? [{ from, until, cows: herd?.cows }] : [];
  const starts = herd.flatMap((period) => period.from ?? []).filter((day) => day > from && day < until);
  const bounds = [...new Set([from, ...starts])].sort();
  return bounds.flatMap((start, at) => {
    const end = bounds[at + 1] ?? until;
    return start < end ? [{ from: start, until: end, cows: cowsOn(farm, start) }] : [];
  });
}

/** The cows of the herd on a day; undefined where nobody wrote it. @example cowsOn({ herd: { cows: 92 } }, '2026-05-01') // → 92 */
export function cowsOn({ herd }: Pick<Farm, 'herd'>, day: CalendarDay): number | undefined {
  if (!Array.isArray(herd)) return herd?.cows;
  return herd
    .filter(({ from }) => from === undefined || from <= day)
    .sort((a, b) => ((a.from ?? '') < (b.from ?? '') ? -1 : 1))
    .at(-1)?.cows;
}

/**
 * How many cows were kept for how long.
 *
 * Shape:   stretches → cow-years; what is of unknown size adds nothing
 * Unit:    cow-years of 365.25 days
 * Source:  shared/herd.json `yearDays`
 * Checked: tests/herd/cow-years.test.ts
 * @example cowYears([{ from: '2026-01-01', until: '2027-01-01', cows: 200 }]) // → 199.8631074606434
 */
export function cowYears(stretches: readonly HerdStretch[]): number {
  const cowDays = stretches.reduce(
    (sum, { from, until, cows = 0 }) => sum + cows * daysBetween(from, until),
    0,
  );
  return cowDays / herdNumbers.figures.yearDays.value;
}

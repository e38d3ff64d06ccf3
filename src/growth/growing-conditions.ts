import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm, HerdPeriod } from '../record/farm.js';
import type { Hemisphere, Housing } from '../record/words.js';
import { given } from '../record/given.js';

/** What of a farm bears on the growth of horn. */
export interface GrowingConditions {
  readonly hemisphere?: Hemisphere;
  /** How the cows are kept on a day; undefined where nobody wrote it down. */
  readonly housingOn: (day: CalendarDay) => Housing | undefined;
}

/**
 * Reads the growing conditions off a farm.
 *
 * Shape:   a farm → the hemisphere and the housing in force on any day
 * Valid:   one herd map holds always; of a list, the period with the latest `from` up to the day
 * Checked: tests/growth/growing-conditions.test.ts
 * @example growingConditions({ farm: 'Quernholt', herd: { housing: 'grazed' } }).housingOn('2026-05-01') // → 'grazed'
 */
export function growingConditions(farm: Pick<Farm, 'herd' | 'hemisphere'>): GrowingConditions {
  const { herd, hemisphere } = farm;
  const housingOn = Array.isArray(herd)
    ? (day: CalendarDay) => periodInForce(herd, day)?.housing
    : () => herd?.housing;
  return { ...given({ hemisphere }), housingOn };
}

function periodInForce(periods: readonly HerdPeriod[], day: CalendarDay): HerdPeriod | undefined {
  let inForce: HerdPeriod | undefined;
  for (const period of periods) {
    const begun = period.from === undefined || period.from <= day;
    if (begun && (inForce?.from ?? '') <= (period.from ?? '')) inForce = period;
  }
  return inForce;
}

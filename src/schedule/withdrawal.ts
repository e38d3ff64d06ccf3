import { addDays, type CalendarDay, daysBetween, lastCalendarDay } from '../record/calendar-day.js';
import type { ProductUse } from '../record/visit.js';

/** How long milk or meat is withheld after one use of a product. */
export type Withheld =
  /** 0 was written: nothing is withheld. */
  | { readonly outcome: 'nothing' }
  | {
      readonly outcome: 'withheld';
      /** Whole days counted, each part rounded up; the label's own hours where it gives hours. */
      readonly days: number;
      readonly hours?: number;
      readonly milkings?: number;
      readonly lastWithheld: CalendarDay;
      readonly firstClear: CalendarDay;
    }
  /** A medicine, or perhaps one, without a word: treat as under withdrawal and ask the vet. */
  | { readonly outcome: 'not-recorded' }
  /** Given in milkings, and the farm's milkings a day are not known. */
  | { readonly outcome: 'milkings-a-day-not-known'; readonly milkings: number }
  /** Written as no medicine, and nothing withheld was written. */
  | { readonly outcome: 'none-written' };

export interface Withdrawal {
  readonly lastDose: CalendarDay;
  readonly milk: Withheld;
  readonly meat: Withheld;
}

/**
 * The last withheld and the first clear day of one use of a product; both are printed, never one.
 *
 * Last withheld day = day of the last dose + withdrawal; first clear day = the day after. Hours ÷ 24 and
 * milkings ÷ milkings a day are each rounded up to whole days. Where hours and days both stand, the label's own
 * hours win. A product without a class is treated as one not sure. Nothing is ever suggested: only what was
 * written is counted.
 *
 * Shape:   product use + the day of its visit (the last dose where `on` and `until` are absent)
 * Unit:    calendar days
 * Source:  shared/intervals.json, `withdrawal`
 * Checked: tests/schedule/withdrawal.test.ts
 * @example withdrawalOf({ product: 'x', 'milk-days': 4 }, '2026-03-01', 2).milk
 *   // → { outcome: 'withheld', days: 4, lastWithheld: '2026-03-05', firstClear: '2026-03-06' }
 */
export function withdrawalOf(
  use: ProductUse,
  visitDate: CalendarDay,
  milkingsADay: number | undefined,
): Withdrawal {
  const lastDose = use.until ?? use.on ?? visitDate;
  const missing: Withheld =
    use.class === 'not a medicine' ? { outcome: 'none-written' } : { outcome: 'not-recorded' };
  return {
    lastDose,
    milk: milkOf(use, lastDose, milkingsADay) ?? missing,
    meat: use['meat-days'] === undefined ? missing : heldFor(lastDose, use['meat-days']),
  };
}

function milkOf(
  use: ProductUse,
  lastDose: CalendarDay,
  milkingsADay: number | undefined,
): Withheld | undefined {
  const { 'milk-hours': hours, 'milk-days': days, 'milk-milkings': milkings } = use;
  if (hours !== undefined) return heldFor(lastDose, hours / 24, { hours });
  if (days !== undefined) return heldFor(lastDose, days);
  if (milkings === undefined) return undefined;
  if (milkings === 0) return { outcome: 'nothing' };
  if (!milkingsADay) return { outcome: 'milkings-a-day-not-known', milkings };
  return heldFor(lastDose, milkings / milkingsADay, { milkings });
}

function heldFor(
  lastDose: CalendarDay,
  period: number,
  asWritten: { hours?: number; milkings?: number } = {},
): Withheld {
  if (period === 0) return { outcome: 'nothing' };
  // A slip of many noughts is shown as withheld for good, not as a day no calendar has.
  const days = Math.min(Math.ceil(period), daysBetween(lastDose, lastCalendarDay));
  const lastWithheld = addDays(lastDose, days);
  return { outcome: 'withheld', days, ...asWritten, lastWithheld, firstClear: addDays(lastWithheld, 1) };
}

import type { CalendarDay } from '../record/calendar-day.js';

/** One measure at two looks: then, now, and what the change reads as. Everything worded. */
export interface Change {
  readonly what: string;
  readonly before: { readonly date: CalendarDay; readonly said: string };
  readonly last: { readonly date: CalendarDay; readonly said: string };
  readonly change?: string;
  readonly expected?: string;
  readonly readsAs?: string;
}

/** A change with its sign. @example signed(-3.5) // → '−3.5' */
export function signed(change: number): string {
  const rounded = Math.round(change * 10) / 10;
  return rounded > 0 ? `+${rounded}` : rounded < 0 ? `−${-rounded}` : '0';
}

import { terminal } from '../problem/message.js';
import { addDays, type CalendarDay, calendarDay } from './calendar-day.js';

/** A stretch of days, both ends in it. */
export type Period = Readonly<{ from: CalendarDay; to: CalendarDay }>;

/** A period as typed: read, or what is wrong with it. */
export type PeriodRead = { readonly period: Period } | { readonly wrong: string };

/**
 * Reads a period: a year, a month, a day, or two of them with `..` between; from the first day of the one to the
 * last of the other, both in it.
 *
 * Refused, never guessed: a day or month that does not exist, an end before the beginning, one end left open.
 *
 * Checked: tests/record/period.test.ts
 * @example readPeriod('2026-02') // → { period: { from: '2026-02-01', to: '2026-02-28' } }
 * @example readPeriod('2026-01-01..2026-03') // → { period: { from: '2026-01-01', to: '2026-03-31' } }
 */
export function readPeriod(written: string): PeriodRead {
  const parts = written.trim().split('..');
  if (parts.length > 2 || parts.includes(''))
    return { wrong: terminal('period.not-one', { found: written }) };
  const [first, last = first] = parts.map(daysOf);
  if (!first || !last) {
    const odd = parts.find((part) => !daysOf(part))!;
    return { wrong: terminal('period.no-such-day', { found: odd }) };
  }
  if (last.to < first.from)
    return { wrong: terminal('period.ends-first', { from: parts[0]!, to: parts[1]! }) };
  return { period: { from: first.from, to: last.to } };
}

/** A period as its two days, for names of files; a whole year or month by its own short name. @example nameOfPeriod({ from: '2026-02-01', to: '2026-02-28' }) // → '2026-02' */
export function nameOfPeriod({ from, to }: Period): string {
  const [year, month] = from.split('-');
  const short = [`${year}`, `${year}-${month}`, from].find((name) => {
    const days = daysOf(name);
    return days?.from === from && days.to === to;
  });
  return short ?? `${from}--${to}`;
}

/** The month a day lies in. @example monthOf('2024-02-16') // → { from: '2024-02-01', to: '2024-02-29' } */
export function monthOf(day: CalendarDay): Period {
  return daysOf(day.slice(0, 7))!;
}

/** The year up to and with a day. @example twelveMonthsTo('2026-06-16') // → { from: '2025-06-17', to: '2026-06-16' } */
export function twelveMonthsTo(day: CalendarDay): Period {
  const before = `${Number(day.slice(0, 4)) - 1}`;
  const same = `${before}${day.slice(4)}`;
  // A 29 February has no day of its name the year before.
  return { from: exists(same) ? addDays(same, 1) : `${before}-03-01`, to: day };
}

/** Whether a day lies in a period; without a period every day does. */
export function isInPeriod(day: CalendarDay, period: Period | undefined): boolean {
  return period === undefined || (day >= period.from && day <= period.to);
}

/** The first and last day of a year, a month or a day as written; undefined where there is none such. */
function daysOf(written: string): Period | undefined {
  const [, year, month, day] = /^(\d{4})(?:-(\d\d)(?:-(\d\d))?)?$/.exec(written) ?? [];
  const from = `${year}-${month ?? '01'}-${day ?? '01'}`;
  if (year === undefined || !exists(from)) return undefined;
  if (day !== undefined) return { from, to: from };
  const to = lastDays.map((last) => `${year}-${month ?? '12'}-${last}`).find(exists);
  return to === undefined ? undefined : { from, to };
}

/** A month ends on the first of these that it has. */
const lastDays = ['31', '30', '29', '28'];

function exists(day: string): boolean {
  return calendarDay.safeParse(day).success;
}

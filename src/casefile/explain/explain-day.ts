import { shown } from '../shown.js';
import type { Said } from './said.js';

const months = [
  'January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December',
] as const; // prettier-ignore

/** Why a value is not a day of the calendar. */
export function explainDay(name: string, value: unknown, orUnknown: boolean): Said {
  const text = typeof value === 'string' ? value.trim() : '';
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? [];
  if (year !== undefined && month !== undefined && day !== undefined)
    return noSuchDay(name, text, year, month);
  return {
    id: 'value/day-form',
    message: `${name} is ${shown(value)}, expected a day as \`YYYY-MM-DD\`${orUnknown ? ' or `unknown`' : ''}`,
    mend: suggestion(text) ?? 'write year, month and day with hyphens, such as `2026-02-03`',
  };
}

function noSuchDay(name: string, text: string, year: string, month: string): Said {
  const monthName = months[Number(month) - 1];
  const far = Number(year) < 1900 || Number(year) > 2199;
  return {
    id: 'value/no-such-day',
    message: `${name} is \`${text}\`, expected a day ${far ? 'from 1900 to 2199' : 'that is in the calendar'}`,
    mend: far
      ? 'look at the year again'
      : monthName === undefined
        ? 'the month is a number from 01 to 12; the order is year, month, day'
        : `${monthName} ${year} has ${daysIn(Number(year), Number(month))} days; look at the day again`,
  };
}

function daysIn(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** The day that was most likely meant; both readings where day and month could be either. */
function suggestion(text: string): string | undefined {
  const [, year, month, day] = /^(\d{4})[-/. ]?(\d{1,2})[-/. ]?(\d{1,2})(?:$|[T ])/.exec(text) ?? [];
  if (year !== undefined) return `write \`${year}-${two(month)}-${two(day)}\``;
  const [, number, name, after] = /^(\d{1,2})[. ]*([a-z]{3,9})[. ]*(\d{4})$/i.exec(text) ?? [];
  const named =
    name === undefined ? -1 : months.findIndex((other) => other.toLowerCase().startsWith(name.toLowerCase()));
  if (named !== -1) return `write \`${after}-${two(String(named + 1))}-${two(number)}\``;
  const [, first, second, late] = /^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4})$/.exec(text) ?? [];
  if (late === undefined) return undefined;
  const readings = [
    [second, first],
    [first, second],
  ].filter(([m]) => Number(m) >= 1 && Number(m) <= 12);
  const unlike = [...new Set(readings.map(([m, d]) => `${late}-${two(m)}-${two(d)}`))];
  const said = unlike.map(
    (iso) => `\`${iso}\` for ${Number(iso.slice(8))} ${months[Number(iso.slice(5, 7)) - 1]}`,
  );
  return said.length === 0 ? undefined : `write ${said.join(', or ')}`;
}

function two(number: string | undefined): string {
  return (number ?? '').padStart(2, '0');
}

import { type CalendarDay, calendarDay } from '../../record/calendar-day.js';
import { monthNumbers } from '../../reference/months.js';
import { terminal } from '../../problem/message.js';

/** Which comes first in a day written in figures with the year last. */
export type DayOrder = 'day-first' | 'month-first';

/** The day a cell holds, the days it may be, or what is wrong with it. */
export type DayOfList =
  | { readonly outcome: 'day'; readonly day: CalendarDay }
  | { readonly outcome: 'either'; readonly ways: Readonly<Record<DayOrder, CalendarDay>> }
  | { readonly outcome: 'none'; readonly expected: string };

/**
 * A day in one of the notations lists have. Where both orders of the figures give a day, neither is chosen: the order has to be told.
 *
 * Checked: tests/keep/read-list.test.ts
 * @example dayInList('21/08/2020') // → { outcome: 'day', day: '2020-08-21' }
 */
export function dayInList(written: string, order?: DayOrder): DayOfList {
  const text = written.replace(/[ T]00:00(?::00(?:\.0+)?)?Z?$/, '');
  const yearFirst = /^(\d{4})([-/.]?)(\d{2})\2(\d{2})$/.exec(text);
  if (yearFirst) return one(day(yearFirst[1], yearFirst[3], yearFirst[4]));
  const named =
    /^(\d{1,2})[ -]+([a-z]+)\.?,?[ -]+(\d{4})$/i.exec(text) ??
    swapped(/^([a-z]+)\.?[ -]+(\d{1,2}),?[ -]+(\d{4})$/i.exec(text));
  if (named) return one(day(named[3], String(monthNumbers.get(named[2]!.toLowerCase()) ?? ''), named[1]));
  const figures = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4})$/.exec(text);
  if (!figures)
    return {
      outcome: 'none',
      expected: /^\d{1,2}([-/.])\d{1,2}\1\d{2}$/.test(text)
        ? terminal('keep.list.expected.whole-year')
        : terminal('keep.list.expected.day'),
    };
  const dayFirst = day(figures[4], figures[3], figures[1]);
  const monthFirst = day(figures[4], figures[1], figures[3]);
  if (order) return one(order === 'day-first' ? dayFirst : monthFirst, order);
  if (dayFirst !== undefined && monthFirst !== undefined && dayFirst !== monthFirst)
    return { outcome: 'either', ways: { 'day-first': dayFirst, 'month-first': monthFirst } };
  return one(dayFirst ?? monthFirst);
}

function swapped(found: RegExpExecArray | null): readonly (string | undefined)[] | null {
  return found && [found[0], found[2], found[1], found[3]];
}

function one(found: CalendarDay | undefined, order?: DayOrder): DayOfList {
  if (found !== undefined) return { outcome: 'day', day: found };
  return {
    outcome: 'none',
    expected: terminal(`keep.list.expected.${order ?? 'day'}`),
  };
}

function day(year = '', month = '', ofMonth = ''): CalendarDay | undefined {
  const written = `${year}-${month.padStart(2, '0')}-${ofMonth.padStart(2, '0')}`;
  return calendarDay.safeParse(written).success ? written : undefined;
}

import { type CalendarDay, calendarDay } from '../../record/calendar-day.js';
import { monthNumbers } from '../../reference/months.js';
import { terminal } from '../../problem/message.js';
import type { Values } from '../../reference/words.js';
import { bareMark } from '../../record/same-animal.js';
import {
  type ColumnMap,
  identityKeys,
  listKeys,
  type AnimalList,
  type ListCell,
  type ListTrouble,
} from './read-list.js';

/** Which comes first in a day written in figures with the year last. */
export type DayOrder = 'day-first' | 'month-first';

/** The day a cell holds, the days it may be, or what is wrong with it. */
type DayOfList =
  | { readonly outcome: 'day'; readonly day: CalendarDay }
  | { readonly outcome: 'either'; readonly ways: Readonly<Record<DayOrder, CalendarDay>> }
  | { readonly outcome: 'none'; readonly expected: string };

/**
 * A day in one of the notations lists have. Where both orders of the figures give a day, neither is chosen: the order has to be given.
 *
 * Checked: tests/keep/read-list.test.ts
 * @example dayInList('21/08/2020') // → { outcome: 'day', day: '2020-08-21' }
 */
export function dayInList(written: string, order?: DayOrder): DayOfList {
  const text = written.replace(/[ T]00:00(?::00(?:\.0+)?)?Z?$/, '');
  const {
    year,
    month = '',
    name = '',
    day = '',
  } = (
    /^(?<year>\d{4})([-/.]?)(?<month>\d{2})\2(?<day>\d{2})$/.exec(text) ??
    /^(?<day>\d{1,2})[ -]+(?<name>[a-z]+)\.?,?[ -]+(?<year>\d{4})$/i.exec(text) ??
    /^(?<name>[a-z]+)\.?[ -]+(?<day>\d{1,2}),?[ -]+(?<year>\d{4})$/i.exec(text)
  )?.groups ?? {};
  if (year !== undefined)
    return asDay(dayOf(year, month || String(monthNumbers.get(name.toLowerCase()) ?? ''), day));
  const [, first, , second, last] = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4})$/.exec(text) ?? [];
  if (!first || !second || !last)
    return asDay(undefined, /^\d{1,2}([-/.])\d{1,2}\1\d{2}$/.test(text) ? 'whole-year' : 'day');
  const dayFirst = dayOf(last, second, first);
  const monthFirst = dayOf(last, first, second);
  if (order) return asDay(order === 'day-first' ? dayFirst : monthFirst, order);
  if (dayFirst !== undefined && monthFirst !== undefined && dayFirst !== monthFirst)
    return { outcome: 'either', ways: { 'day-first': dayFirst, 'month-first': monthFirst } };
  return asDay(dayFirst ?? monthFirst);
}

function asDay(found: CalendarDay | undefined, expected = 'day'): DayOfList {
  if (found !== undefined) return { outcome: 'day', day: found };
  return { outcome: 'none', expected: terminal(`keep.list.expected.${expected}`) };
}

function dayOf(year: string, month: string, day: string): CalendarDay | undefined {
  const written = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  return calendarDay.safeParse(written).success ? written : undefined;
}

/** What a row says of one animal, under the keys of the case format. */
export interface ListRow {
  readonly line: number;
  readonly values: Readonly<Record<string, string | number | readonly CalendarDay[]>>;
  readonly troubles: readonly ListTrouble[];
}

interface RowsRead {
  readonly rows: readonly ListRow[];
  /** Days that both orders of their figures make a day, which only the list's maker can tell. */
  readonly either: readonly ListCell[];
}

type Value = string | number | CalendarDay[];

/**
 * The rows of a list as identities. Every cell that cannot be taken is reported, with its place; an empty cell says nothing.
 *
 * Checked: tests/keep/read-list.test.ts
 */
export function readRows(list: AnimalList, map: ColumnMap, order?: DayOrder): RowsRead {
  const either: ListCell[] = [];
  const rows = list.rows.map((cells) => readRow(cells, list.columns, map, order, either));
  return { rows: withoutTwins(rows), either };
}

function readRow(
  cells: readonly ListCell[],
  columns: readonly string[],
  map: ColumnMap,
  order: DayOrder | undefined,
  either: ListCell[],
): ListRow {
  const values: Record<string, Value> = {};
  const troubles: ListTrouble[] = [];
  const wrong = ({ line, column }: Omit<ListCell, 'text'>, key: string, about: Values): void => {
    troubles.push({ line, column, message: terminal(`keep.list.${key}`, about) });
  };
  for (const [at, cell] of cells.entries()) {
    const column = columns[at] ?? '';
    const key = map[column];
    const found = cell.text;
    if (!key || found === '') continue;
    const read = readCell(cell, key, order);
    const before = values[key];
    if (typeof read === 'object' && 'either' in read) either.push(cell);
    else if (typeof read === 'object' && 'trouble' in read)
      wrong(cell, 'bad-cell', { key, column, found, expected: read.trouble });
    else if (Array.isArray(read))
      values[key] = [...new Set([...((before ?? []) as CalendarDay[]), ...read])].toSorted();
    else if (before !== undefined && before !== read)
      wrong(cell, 'two-columns', { key, found, other: String(before) });
    else values[key] = read;
  }
  const line = cells[0]?.line ?? 1;
  if (troubles.length === 0 && !identityKeys.some((key) => values[key] !== undefined))
    wrong({ line, column: 1 }, 'names-none', {});
  return { line, values, troubles };
}

type CellRead = Value | { readonly trouble: string } | { readonly either: true };

function readCell({ text }: ListCell, key: string, order: DayOrder | undefined): CellRead {
  const wanted = listKeys.get(key);
  switch (wanted?.kind) {
    case 'number':
      return /^\d{1,3}$/.test(text) ? Number(text) : { trouble: terminal('keep.list.expected.number') };
    case 'day':
      return readDay(text, order);
    case 'list':
      return readDays(text, order);
    default:
      // A spreadsheet that took a long number for a sum shows it rounded, and the digits are gone.
      return identityKeys.some((one) => one === key) && /^\d(?:[.,]\d+)?E\+?\d+$/i.test(text)
        ? { trouble: terminal('keep.list.expected.all-digits') }
        : text;
  }
}

function readDay(text: string, order: DayOrder | undefined): string | { trouble: string } | { either: true } {
  const read = dayInList(text, order);
  if (read.outcome === 'either') return { either: true };
  return read.outcome === 'day' ? read.day : { trouble: read.expected };
}

/** Several days in one cell are separated by a comma, a semicolon, a stroke or a line end. */
function readDays(text: string, order: DayOrder | undefined): CellRead {
  const days: string[] = [];
  for (const part of text.split(/[,;|\n]/).map((one) => one.trim())) {
    if (part === '') continue;
    const read = readDay(part, order);
    if (typeof read !== 'string') return read;
    days.push(read);
  }
  return days;
}

/** Two rows of one animal: neither is taken, since nothing says which is hers. */
function withoutTwins(rows: readonly ListRow[]): ListRow[] {
  const marksOf = ({ values }: ListRow): [key: string, mark: string][] =>
    identityKeys.flatMap((key): [string, string][] =>
      values[key] === undefined ? [] : [[key, `${key} ${bareMark(String(values[key]))}`]],
    );
  // Of rows that are the same the first two are enough: each has another one among them.
  const byMark = new Map<string, ListRow[]>();
  for (const row of rows)
    for (const [, mark] of marksOf(row)) {
      const same = byMark.get(mark) ?? [];
      if (same.length < 2 && same[0] !== row) byMark.set(mark, [...same, row]);
    }
  return rows.map((row) => {
    for (const [key, mark] of marksOf(row)) {
      const twin = byMark.get(mark)?.find((other) => other !== row);
      if (!twin) continue;
      const message = terminal('keep.list.twin', { key, found: String(row.values[key]), line: twin.line });
      return { ...row, troubles: [...row.troubles, { line: row.line, column: 1, message }] };
    }
    return row;
  });
}

import { type CalendarDay, calendarDay } from '../../record/calendar-day.js';
import { monthNumbers } from '../../reference/months.js';
import { terminal } from '../../problem/message.js';
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
 * A day in one of the notations lists have. Where both orders of the figures give a day, neither is chosen: the order has to be told.
 *
 * Checked: tests/keep/read-list.test.ts
 * @example dayInList('21/08/2020') // → { outcome: 'day', day: '2020-08-21' }
 */
export function dayInList(written: string, order?: DayOrder): DayOfList {
  const text = written.replace(/[ T]00:00(?::00(?:\.0+)?)?Z?$/, '');
  const yearFirst = /^(\d{4})([-/.]?)(\d{2})\2(\d{2})$/.exec(text);
  if (yearFirst) return asDay(day(yearFirst[1], yearFirst[3], yearFirst[4]));
  const named =
    /^(\d{1,2})[ -]+([a-z]+)\.?,?[ -]+(\d{4})$/i.exec(text) ??
    swapped(/^([a-z]+)\.?[ -]+(\d{1,2}),?[ -]+(\d{4})$/i.exec(text));
  if (named) return asDay(day(named[3], String(monthNumbers.get(named[2]!.toLowerCase()) ?? ''), named[1]));
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
  if (order) return asDay(order === 'day-first' ? dayFirst : monthFirst, order);
  if (dayFirst !== undefined && monthFirst !== undefined && dayFirst !== monthFirst)
    return { outcome: 'either', ways: { 'day-first': dayFirst, 'month-first': monthFirst } };
  return asDay(dayFirst ?? monthFirst);
}

function swapped(found: RegExpExecArray | null): readonly (string | undefined)[] | null {
  return found && [found[0], found[2], found[1], found[3]];
}

function asDay(found: CalendarDay | undefined, order?: DayOrder): DayOfList {
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
 * The rows of a list as identities. Every cell that cannot be taken is told, with its place; an empty cell says nothing.
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
  for (const [at, cell] of cells.entries()) {
    const column = columns[at];
    const key = column === undefined ? undefined : map[column];
    if (!key || cell.text === '') continue;
    const read = readCell(cell, key, order);
    if (typeof read === 'object' && 'either' in read) either.push(cell);
    else if (typeof read === 'object' && 'trouble' in read)
      troubles.push({
        line: cell.line,
        column: cell.column,
        message: terminal('keep.list.bad-cell', {
          key,
          column: column!,
          found: cell.text,
          expected: read.trouble,
        }),
      });
    else if (Array.isArray(read))
      values[key] = [...new Set([...((values[key] ?? []) as CalendarDay[]), ...read])].toSorted();
    else if (values[key] !== undefined && values[key] !== read)
      troubles.push({
        line: cell.line,
        column: cell.column,
        message: terminal('keep.list.two-columns', { key, found: cell.text, other: String(values[key]) }),
      });
    else values[key] = read;
  }
  const [first] = cells;
  const line = first?.line ?? 1;
  if (troubles.length === 0 && !identityKeys.some((key) => values[key] !== undefined))
    troubles.push({
      line,
      column: 1,
      message: terminal('keep.list.names-none'),
    });
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

/** Several days in one cell stand apart by a comma, a semicolon, a stroke or a line end. */
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
  const marksOf = (row: ListRow): { key: string; mark: string }[] =>
    identityKeys.flatMap((key) =>
      row.values[key] === undefined ? [] : [{ key, mark: `${key} ${bareMark(String(row.values[key]))}` }],
    );
  // Of rows that are the same the first two are enough: each has another one among them.
  const byMark = new Map<string, readonly ListRow[]>();
  for (const row of rows)
    for (const { mark } of marksOf(row)) {
      const [first, second] = byMark.get(mark) ?? [];
      if (!second) byMark.set(mark, first && first !== row ? [first, row] : [row]);
    }
  return rows.map((row) => {
    const twin = marksOf(row)
      .flatMap(({ key, mark }) => (byMark.get(mark) ?? []).map((other) => ({ key, other })))
      .find(({ other }) => other !== row);
    if (!twin) return row;
    const said = { key: twin.key, found: String(row.values[twin.key]), line: twin.other.line };
    const message = terminal('keep.list.twin', said);
    return { ...row, troubles: [...row.troubles, { line: row.line, column: 1, message }] };
  });
}

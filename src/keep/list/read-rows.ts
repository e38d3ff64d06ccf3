import { bareMark } from '../../record/same-animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { type DayOrder, dayInList } from './day-in-list.js';
import {
  type ColumnMap,
  identityKeys,
  listKeys,
  type AnimalList,
  type ListCell,
  type ListTrouble,
} from './read-list.js';
import { terminal } from '../../problem/message.js';

/** What a row says of one animal, under the keys of the case format. */
export interface ListRow {
  readonly line: number;
  readonly values: Readonly<Record<string, string | number | readonly CalendarDay[]>>;
  readonly troubles: readonly ListTrouble[];
}

export interface RowsRead {
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

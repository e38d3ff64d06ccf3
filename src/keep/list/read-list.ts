import { CsvError, parse } from 'csv-parse/sync';
import { listNumbers } from './list-numbers.js';
import { listText, type ListText } from './list-text.js';

/** One cell as written, without spaces at its ends; line and column in the list's text, from 1. */
export interface ListCell {
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

/** A list taken apart: the names of its columns and the rows under them. Rows that hold nothing are left out. */
export interface AnimalList {
  readonly outcome: 'list';
  readonly writing: ListText['writing'];
  readonly columns: readonly string[];
  /** As many cells as there are columns, or more. */
  readonly rows: readonly (readonly ListCell[])[];
}

/** Something in a list that cannot be taken, with its place there. */
export interface ListTrouble {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export type ListRead = AnimalList | { readonly outcome: 'trouble'; readonly trouble: ListTrouble };

/**
 * Takes a list of animals apart. The first line that holds anything names the columns; the separator is the one of them that
 * parts that line into most columns, unless it is given.
 *
 * Error:   a quote that is not closed or stands inside a text; two separators that part the first line alike; no line at all
 * Checked: tests/keep/read-list.test.ts
 */
export function readList(bytes: Uint8Array, separator?: string): ListRead {
  const { text, writing } = listText(bytes);
  const by = separator ?? separatorOf(text);
  if (by === undefined)
    return troubleAt(1, 1, 'the first line may be parted in two ways: give the separator with --separator');
  let rows: ListCell[][];
  try {
    rows = rowsOf(text, by);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { line, column } =
      error.code === 'CSV_QUOTE_NOT_CLOSED'
        ? lastOpened(text)
        : { line: Number(error['lines'] ?? 1), column: 1 };
    return troubleAt(line, column, saidOf(error));
  }
  const [head, ...under] = rows.filter((row) => row.some((cell) => cell.text !== ''));
  if (!head)
    return troubleAt(1, 1, 'nothing is in it, expected a line that names the columns and a row an animal');
  const width = under.reduce((most, row) => Math.max(most, lastFilled(row)), head.length);
  const columns = Array.from({ length: width }, (_, at) => head[at]?.text || `column ${at + 1}`);
  return { outcome: 'list', writing, columns, rows: under };
}

function troubleAt(line: number, column: number, message: string): ListRead {
  return { outcome: 'trouble', trouble: { line, column, message } };
}

function saidOf({ code, message }: CsvError): string {
  if (code === 'CSV_QUOTE_NOT_CLOSED')
    return 'a text begins with a quote that is not closed in the rest of the list';
  if (code === 'INVALID_OPENING_QUOTE' || code === 'CSV_INVALID_CLOSING_QUOTE')
    return 'a quote stands inside a text, expected the whole text in quotes with each quote inside it written twice';
  return message;
}

function rowsOf(text: string, separator: string): ListCell[][] {
  const records = parse(text, {
    delimiter: separator,
    info: true,
    raw: true,
    relax_column_count: true,
    record_delimiter: '\n',
    skip_empty_lines: true,
  }) as unknown as { record: string[]; raw: string; info: { lines: number } }[];
  return records.map(({ record, raw, info }) => {
    const own = raw.replace(/^\n+/, '').replace(/\n$/, '');
    const starts = cellStarts(own, separator, info.lines - (own.split('\n').length - 1));
    return record.map((cell, at) => ({ text: cell.trim(), line: 1, column: 1, ...starts[at] }));
  });
}

/** Where each cell of a row begins. */
function cellStarts(row: string, separator: string, firstLine: number): { line: number; column: number }[] {
  const starts = [{ line: firstLine, column: 1 }];
  let [line, column, quoted] = [firstLine, 1, false];
  for (const letter of row) {
    column += 1;
    if (letter === '"') quoted = !quoted;
    else if (letter === '\n') [line, column] = [line + 1, 1];
    else if (letter === separator && !quoted) starts.push({ line, column });
  }
  return starts;
}

/** Where the last text in quotes began. */
function lastOpened(text: string): { line: number; column: number } {
  let [line, column, quoted, before] = [1, 1, false, ''];
  let opened = { line, column };
  for (const letter of text) {
    if (letter === '"') {
      if (!quoted && before !== '"') opened = { line, column };
      quoted = !quoted;
    }
    [line, column] = letter === '\n' ? [line + 1, 1] : [line, column + 1];
    before = letter;
  }
  return opened;
}

function lastFilled(row: readonly ListCell[]): number {
  return row.findLastIndex((cell) => cell.text !== '') + 1;
}

/** Undefined where two do alike; the first of them where none parts the line. */
function separatorOf(text: string): string | undefined {
  const first = text.split('\n').find((line) => line.trim() !== '') ?? '';
  const counts = listNumbers.separators.map((separator) => ({
    separator,
    parts: cellStarts(first, separator, 1).length,
  }));
  const most = counts.reduce((more, { parts }) => Math.max(more, parts), 0);
  const [best, ...others] = counts.filter(({ parts }) => parts === most);
  return most > 1 && others.length > 0 ? undefined : best?.separator;
}

import { z } from 'zod';
import { readShared } from '../../reference/read-shared.js';
import { CsvError, parse } from 'csv-parse/sync';
import { wantedBy, type Wanted } from '../../casefile/wanted.js';
import { animal } from '../../record/animal.js';
import type { CaseFiles } from '../../casefile/source-text.js';
import type { Disk } from '../disk/disk.js';
import { bytesOf, parsedJson } from '../kept-file.js';
import { terminal } from '../../problem/message.js';

/** How a list of animals is read: `shared/animal-list.json`. */
export const listNumbers = readShared(
  'animal-list.json',
  z.strictObject({
    about: z.string(),
    separators: z.array(z.string().length(1)),
    sameDays: z.strictObject({ value: z.int(), unit: z.literal('days'), note: z.string() }),
  }),
);

/** A list's bytes as text, and in which writing they were. */
interface ListText {
  readonly text: string;
  readonly writing: 'UTF-8' | 'UTF-16' | 'Windows-1252';
}

/**
 * The text of a list as a spreadsheet saves it: UTF-8 or UTF-16 by its mark, UTF-8 where every byte fits, else Windows-1252.
 *
 * Text of Windows-1252 with an umlaut or an accent is no good UTF-8 but by the rarest chance, so this distinguishes them.
 * Line ends come out as `\n`.
 *
 * Checked: tests/keep/read-list.test.ts
 */
export function listText(bytes: Uint8Array): ListText {
  const [first, second] = bytes;
  const made = (label: string, writing: ListText['writing']): ListText => {
    const text = new TextDecoder(label, { fatal: label === 'utf-8' }).decode(bytes);
    return { text: text.replace(/^\ufeff/, '').replaceAll(/\r\n?/g, '\n'), writing };
  };
  if (first === 0xff && second === 0xfe) return made('utf-16le', 'UTF-16');
  if (first === 0xfe && second === 0xff) return made('utf-16be', 'UTF-16');
  try {
    return made('utf-8', 'UTF-8');
  } catch {
    return made('windows-1252', 'Windows-1252');
  }
}

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

type ListRead = AnimalList | { readonly outcome: 'trouble'; readonly trouble: ListTrouble };

/**
 * Takes a list of animals apart. The first line that holds anything names the columns; the separator is the one of them that
 * parts that line into most columns, unless it is given.
 *
 * Error:   a quote that is not closed or is inside a text; two separators that part the first line alike; no line at all
 * Checked: tests/keep/read-list.test.ts
 */
export function readList(bytes: Uint8Array, separator?: string): ListRead {
  const { text, writing } = listText(bytes);
  const by = separator ?? separatorOf(text);
  if (by === undefined) return troubleAt(1, 1, terminal('keep.list.two-separators'));
  let rows: ListCell[][];
  try {
    rows = rowsOf(text, by);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { code, message } = error;
    if (code === 'CSV_QUOTE_NOT_CLOSED') {
      const { line, column } = lastOpened(text);
      return troubleAt(line, column, terminal('keep.list.quote-open'));
    }
    const isInside = code === 'INVALID_OPENING_QUOTE' || code === 'CSV_INVALID_CLOSING_QUOTE';
    return troubleAt(Number(error['lines'] ?? 1), 1, isInside ? terminal('keep.list.quote-inside') : message);
  }
  const [head, ...under] = rows.filter((row) => row.some((cell) => cell.text !== ''));
  if (!head) return troubleAt(1, 1, terminal('keep.list.empty'));
  const filled = under.map((row) => row.findLastIndex((cell) => cell.text !== '') + 1);
  const length = filled.reduce((most, one) => Math.max(most, one), head.length);
  const nameOf = (at: number): string => head[at]?.text || terminal('keep.list.column', { place: at + 1 });
  const columns = Array.from({ length }, (_, at) => nameOf(at));
  return { outcome: 'list', writing, columns, rows: under };
}

function troubleAt(line: number, column: number, message: string): ListRead {
  return { outcome: 'trouble', trouble: { line, column, message } };
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

/** Undefined where two do alike; the first of them where none parts the line. */
function separatorOf(text: string): string | undefined {
  const first = text.split('\n').find((line) => line.trim() !== '') ?? '';
  const partsOf = (separator: string): number => cellStarts(first, separator, 1).length;
  const most = listNumbers.separators.reduce((more, one) => Math.max(more, partsOf(one)), 0);
  const [best, ...others] = listNumbers.separators.filter((separator) => partsOf(separator) === most);
  return most > 1 && others.length > 0 ? undefined : best;
}

/** The keys of an animal that a cell of a list can hold, each with what it may be: text, a day, a whole number, several days. */
export const listKeys: ReadonlyMap<string, Wanted> = new Map(
  Object.entries(animal.shape).flatMap(([key, schema]): [string, Wanted][] => {
    const wanted = wantedBy(schema);
    const of = wanted.kind === 'list' ? wanted.of : wanted;
    return ['text', 'free-text', 'day', 'number'].includes(of.kind) ? [[key, wanted]] : [];
  }),
);

/** What identifies an animal. */
export const identityKeys = ['animal', 'tag', 'electronic'] as const;

/** By the name of a column: the key it fills, or `''` where it is left out. */
export type ColumnMap = Readonly<Record<string, string>>;

/** A column named like a key is that key's. @example keyOfColumn('Due to calve') // → 'due-to-calve' */
export function keyOfColumn(column: string): string | undefined {
  const asKey = column
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, '-');
  return listKeys.has(asKey) ? asKey : undefined;
}

/** Whether several columns may fill it, as with one column a calving. */
export function takesSeveral(key: string): boolean {
  return listKeys.get(key)?.kind === 'list';
}

/** What was once said of a farm's lists. */
const remembered = z.strictObject({
  /** By the name of a column: the key it fills, empty where it is left out. */
  columns: z.record(z.string(), z.string()),
  days: z.enum(['day-first', 'month-first']).optional(),
});
type RememberedMap = z.infer<typeof remembered>;

function fileOf(casesFolder: string, farm: string): string {
  return `${casesFolder}/.growdown/import-maps/${farm}.json`;
}

/** What is remembered of a farm's lists; nothing where it cannot be read: it is then asked again. */
export function recalledMap(files: CaseFiles, casesFolder: string, farm: string): RememberedMap {
  const bytes = bytesOf(files, fileOf(casesFolder, farm));
  return remembered.safeParse(bytes && parsedJson(bytes)).data ?? { columns: {} };
}

export function rememberMap(disk: Disk, casesFolder: string, farm: string, map: RememberedMap): void {
  disk.replace(fileOf(casesFolder, farm), `${JSON.stringify(map, null, 2)}\n`);
}

import type { CalendarDay } from '../../record/calendar-day.js';
import { untold, type Words } from '../../reference/words.js';
import { given } from '../../record/given.js';
import { stringify } from 'csv-stringify/sync';
import { printedShare } from '../../herd/printed-figure.js';
import { dayInWords } from '../../words/day-and-place.js';
import { percent, levelPercent } from '../../words/percent.js';
import { fixedDays } from '../../reference/intervals.js';
import type { AuditFacts } from '../facts/audit-facts.js';

/** A part of a whole. There is no way to print it without the whole it is of. */
export interface Share {
  readonly count: number;
  readonly of: number;
  /** How many animals it rests on, where they are not those it is of: a per cent of one animal's visits is not given. */
  readonly animals?: number;
}

/** What a column holds, by its kind. */
interface ValueOfKind {
  /** Text as it was written, or worded. */
  text: string;
  /** Several texts, each its own line on the page. */
  lines: readonly string[];
  day: CalendarDay;
  number: number;
  /** A word of a closed list: the page says it in the reader's language, the CSV as the list has it. */
  word: string;
  share: Share;
}
type ColumnKind = keyof ValueOfKind;

/** One column of a table of the pack, for the page and for the CSV alike. */
export type AuditColumn<Row> = {
  [Kind in ColumnKind]: {
    /** The CSV's heading: plain lower-case words joined with `_`; permanent. Also the key of its words. */
    readonly name: string;
    readonly kind: Kind;
    /** Undefined where the record does not say: an empty cell of the CSV, a dash or nothing on the page. */
    readonly of: (row: Row, words: Words) => ValueOfKind[Kind] | undefined;
    /** Of a `word`: where the reader's words for it stand. */
    readonly words?: string;
    /** On the page it stands in the cell of the column before it, under its own label, and only where there is something. */
    readonly beneath?: true;
    /** Beneath another it needs no label: what it is can be seen. */
    readonly unlabelled?: true;
    /** Not torn apart at a line's end. */
    readonly whole?: true;
    /** The page has it already, beside the share it belongs to. */
    readonly csvOnly?: true;
    /** Nothing there is nothing to say: no dash stands for it on the page. */
    readonly blank?: true;
    /** A word that makes the row stand out. */
    readonly strongWhen?: readonly string[];
  };
}[ColumnKind];

/** A table of the pack: its rows, and what each column takes from a row. */
interface AuditTable<Row> {
  /** The name of the CSV file without `.csv`, the id on the page, and the key of its words; permanent. */
  readonly name: string;
  readonly columns: readonly AuditColumn<Row>[];
  readonly rows: readonly Row[];
}

/** A table whose rows are nobody's business but its own. */
export interface SealedTable {
  readonly name: string;
  readonly rowCount: number;
  readonly columns: readonly ColumnName[];
  /** Each column's value of each row, row by row. */
  readonly values: (words: Words) => readonly (readonly CellValue[])[];
}

export interface ColumnName {
  readonly name: string;
  readonly kind: ColumnKind;
  readonly words?: string;
  readonly beneath: boolean;
  readonly unlabelled: boolean;
  readonly whole: boolean;
  readonly csvOnly: boolean;
  readonly blank: boolean;
  readonly strongWhen: readonly string[];
}

/** One value with its kind. */
export type CellValue = { [Kind in ColumnKind]: { readonly kind: Kind; readonly value: ValueOfKind[Kind] } }[ColumnKind] | undefined; // prettier-ignore

/** Puts a table's rows and columns together, so that page, CSV and dictionary can only read the same. */
export function sealed<Row>({ name, columns, rows }: AuditTable<Row>): SealedTable {
  return {
    name,
    rowCount: rows.length,
    columns: columns.map((column) => ({
      name: column.name,
      kind: column.kind,
      beneath: column.beneath === true,
      unlabelled: column.unlabelled === true,
      whole: column.whole === true,
      csvOnly: column.csvOnly === true,
      blank: column.blank === true,
      strongWhen: column.strongWhen ?? [],
      ...given({ words: column.words }),
    })),
    values: (words) => rows.map((row) => columns.map((column) => valueOf(column, row, words))),
  };
}

function valueOf<Row>(column: AuditColumn<Row>, row: Row, words: Words): CellValue {
  const value = column.of(row, words);
  if (value === undefined || value === '' || (Array.isArray(value) && value.length === 0)) return undefined;
  return { kind: column.kind, value } as CellValue;
}

/** A column's heading on the page: the table's own where it has one, else what the name means in every table. */
export function columnHead(words: Words, table: string, column: string): string {
  return words.say(keyOf(words, table, column, 'head'));
}

/** What a column means, for the dictionary. */
export function columnMeaning(words: Words, table: string, column: string): string {
  return words.say(keyOf(words, table, column, 'means'));
}

function keyOf(words: Words, table: string, column: string, part: 'head' | 'means'): string {
  const own = `audit.column.${table}.${column}.${part}`;
  return words.has(own) ? own : `audit.column.every.${column}.${part}`;
}

/** What stands between the texts of one cell. */
const between = ' | ';

/** The headings of a column: a share takes three, so that no program can read it without what it is of. */
export function csvHeads({ name, kind }: Pick<ColumnName, 'name' | 'kind'>): readonly string[] {
  return kind === 'share' ? [name, `${name}_of`, `${name}_percent`] : [name];
}

/**
 * A table of the pack as CSV, RFC 4180: the same rows and values as on the page.
 *
 * A byte-order mark stands in front, without which a spreadsheet on Windows reads letters wrongly. A text that a
 * spreadsheet would run as a formula gets an apostrophe in front.
 */
export function csvTable(words: Words, table: SealedTable): string {
  return stringify(
    [
      table.columns.flatMap(csvHeads),
      ...table.values(words).map((row) => row.flatMap((cell, at) => csvCells(table.columns[at]!, cell))),
    ],
    { bom: true, record_delimiter: '\r\n', escape_formulas: true },
  );
}

function csvCells({ kind }: ColumnName, cell: CellValue): readonly string[] {
  if (cell === undefined) return kind === 'share' ? ['', '', ''] : [''];
  switch (cell.kind) {
    case 'lines':
      return [untold(cell.value.join(between))];
    case 'share': {
      const { count, of, animals } = cell.value;
      const share = printedShare(count, of, animals);
      return [String(count), String(of), share ? String(percent(share.value)) : ''];
    }
    case 'number':
      return [String(cell.value)];
    case 'day':
    case 'word':
      return [cell.value];
    case 'text':
      return [untold(cell.value)];
  }
}

/** What belongs to the period and how it is counted, for the page's end and the dictionary. */
export function rulesInWords(words: Words, { today }: Pick<AuditFacts, 'today'>): string[] {
  const values = {
    day: dayInWords(words, today),
    level: levelPercent,
    days: fixedDays('written-late'),
  };
  return ['1', '2', '3', '4', '5', '6', '7', '8'].map((rule) => words.say(`audit.rules.${rule}`, values));
}

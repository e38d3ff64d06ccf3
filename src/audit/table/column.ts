import type { CalendarDay } from '../../record/calendar-day.js';
import { untold, type Words } from '../../reference/words.js';
import { signsShown } from '../../record/signs.js';
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
  /** How many animals it is based on, where they are not those it is of: a per cent of one animal's visits is not given. */
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

/** How a column is shown, beside what it holds. */
interface Look {
  /** Of a `word`: where the reader's words for it are. */
  readonly words?: string;
  /** It is in the cell of the column before it, under its own label, and only where there is something. */
  readonly beneath?: true;
  /** Beneath another it needs no label: what it is can be seen. */
  readonly unlabelled?: true;
  /** Not torn apart at a line's end. */
  readonly whole?: true;
  /** The page has it already, beside the share it belongs to. */
  readonly csvOnly?: true;
  /** Nothing there is nothing to say: no dash stands for it. */
  readonly blank?: true;
  /** A word that makes the row stand out. */
  readonly strongWhen?: readonly string[];
}

export interface ColumnName extends Look {
  /** The CSV's heading: plain lower-case words joined with `_`; permanent. Also the key of its words. */
  readonly name: string;
  readonly kind: ColumnKind;
}

/** One column of a table of the pack, for the page and for the CSV alike. */
export interface AuditColumn<Row> extends ColumnName {
  /** Undefined where the record does not say: an empty cell of the CSV, a dash or nothing on the page. */
  readonly of: (row: Row, words: Words) => ValueOfKind[ColumnKind] | undefined;
}

export const beneath = { beneath: true } as const;
export const blank = { blank: true } as const;
export const whole = { whole: true } as const;

type Of<Row, Kind extends ColumnKind> = (row: Row, words: Words) => ValueOfKind[Kind] | undefined;

/** What makes the columns of a table whose rows are these, by what they hold. */
export function columnsOf<Row>() {
  const ofKind =
    <Kind extends ColumnKind>(kind: Kind) =>
    (name: string, of: Of<Row, Kind>, look: Look = {}): AuditColumn<Row> => ({ ...look, name, kind, of });
  return {
    text: ofKind('text'),
    lines: ofKind('lines'),
    day: ofKind('day'),
    number: ofKind('number'),
    share: ofKind('share'),
    word: (name: string, words: string, of: Of<Row, 'word'>, look: Look = {}) =>
      ofKind('word')(name, of, { ...look, words }),
  };
}

/** A table whose rows are nobody's business but its own. */
export interface SealedTable {
  /** The name of the CSV file without `.csv`, the id on the page, and the key of its words; permanent. */
  readonly name: string;
  readonly rowCount: number;
  readonly columns: readonly ColumnName[];
  /** Each column's value of each row, row by row. */
  readonly values: (words: Words) => readonly (readonly CellValue[])[];
}

/** One value with its kind. */
export type CellValue = { [Kind in ColumnKind]: { readonly kind: Kind; readonly value: ValueOfKind[Kind] } }[ColumnKind] | undefined; // prettier-ignore

/** Puts a table's rows and columns together, so that page, CSV and dictionary can only read the same. */
export function sealed<Row>(
  name: string,
  rows: readonly Row[],
  columns: readonly AuditColumn<Row>[],
): SealedTable {
  const valueOf = ({ of, kind }: AuditColumn<Row>, row: Row, words: Words): CellValue => {
    const value = of(row, words);
    const isThere = value !== undefined && value !== '' && !(Array.isArray(value) && value.length === 0);
    return isThere ? ({ kind, value } as CellValue) : undefined;
  };
  return {
    name,
    rowCount: rows.length,
    columns,
    values: (words) => rows.map((row) => columns.map((column) => valueOf(column, row, words))),
  };
}

/**
 * A column's heading on the page, or what it means, for the dictionary: the table's own where it has one, else what the
 * name says in every table.
 */
export function columnWords(words: Words, part: 'head' | 'means', table: string, column: string): string {
  const own = `audit.column.${table}.${column}.${part}`;
  return words.say(words.has(own) ? own : `audit.column.every.${column}.${part}`);
}

const between = ' | ';

/** The headings of a column: a share takes three, so that no program can read it without what it is of. */
export function csvHeads({ name, kind }: Pick<ColumnName, 'name' | 'kind'>): readonly string[] {
  return kind === 'share' ? [name, `${name}_of`, `${name}_percent`] : [name];
}

/**
 * A table of the pack as CSV, RFC 4180: the same rows and values as on the page.
 *
 * A byte-order mark comes first, without which a spreadsheet on Windows reads letters wrongly. A text that a
 * spreadsheet would run as a formula gets an apostrophe in front.
 */
export function csvTable(words: Words, table: SealedTable): string {
  return stringify(
    [
      table.columns.flatMap(csvHeads),
      ...table.values(words).map((row) => row.flatMap((cell, at) => csvCells(table.columns[at]!, cell))),
    ],
    { bom: true, record_delimiter: '\r\n', escape_formulas: true, cast: { string: signsShown } },
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
  return [...'12345678'].map((rule) => words.say(`audit.rules.${rule}`, values));
}

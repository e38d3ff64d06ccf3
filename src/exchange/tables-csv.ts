import { stringify } from 'csv-stringify/sync';
import { dataPackage } from './data-package.js';
import type { Written } from './records-json.js';
import { type Cell, rowsOf } from './rows-of.js';
import { type Sheet, sheets } from './sheets.js';

/** Text in the tables that a spreadsheet program would take for a formula. */
export interface LooksLikeFormula {
  readonly file: string;
  /** Counted from the line of names as 1, as a spreadsheet counts. */
  readonly row: number;
  readonly column: string;
}

export interface Tables {
  /** File name → its text; always the same files, whatever the records hold. */
  readonly files: ReadonlyMap<string, string>;
  readonly formulas: readonly LooksLikeFormula[];
}

/**
 * What a spreadsheet program reads as a formula. A number with a sign, as phone numbers have, works nothing out.
 */
const formula = /^[\t\r ]*(?:[=@]|[+-](?![\d\s().-]*$))/;

/**
 * The records as tidy tables (RFC 4180: commas, CRLF, UTF-8 without a mark), with the dictionary of all columns.
 *
 * Text is written as it stands in the records, to the character, since tables are read by programs too; what a
 * spreadsheet program would run is told. With `guarded` an apostrophe is put before it.
 *
 * Checked: tests/exchange/tables.test.ts
 */
export function tablesOf(written: Written, { guarded }: { readonly guarded: boolean }): Tables {
  const rows = rowsOf(written);
  const formulas: LooksLikeFormula[] = [];
  const texts = new Map<Sheet, string>();
  for (const sheet of sheets) {
    const names = [...sheet.keys, ...sheet.columns].map(({ name }) => name);
    const cells = (rows.get(sheet) ?? []).map((row, index) =>
      row.map((cell, at) => {
        if (typeof cell !== 'string' || !formula.test(cell)) return cell;
        formulas.push({ file: fileOf(sheet), row: index + 2, column: names[at] ?? '' });
        return guarded ? `'${cell}` : cell;
      }),
    );
    texts.set(sheet, csv([names, ...cells]));
  }
  const files = new Map([...texts].map(([sheet, text]) => [fileOf(sheet), text]));
  return { files: files.set('datapackage.json', dataPackage(texts, { guarded })), formulas };
}

function fileOf({ name }: Sheet): string {
  return `${name}.csv`;
}

/** Quotes stand also round text that some readers would trim or take for a line end. */
function csv(rows: readonly (readonly Cell[])[]): string {
  return stringify(
    rows.map((row) => [...row]),
    {
      record_delimiter: 'windows',
      cast: { boolean: String, number: String },
      quoted_match: /^[\s\ufeff]|\s$|[\r\n]/,
    },
  );
}

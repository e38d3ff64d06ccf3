import { stringify } from 'csv-stringify/sync';
import { printedShare } from '../../herd/printed-figure.js';
import { percent } from '../../words/percent.js';
import type { Words } from '../../words/words.js';
import type { CellValue, ColumnName, SealedTable } from './column.js';

/** What stands between the texts of one cell. */
export const between = ' | ';

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
      return [cell.value.join(between)];
    case 'share': {
      const { count, of, animals } = cell.value;
      const share = printedShare(count, of, animals);
      return [String(count), String(of), share ? String(percent(share.value)) : ''];
    }
    case 'number':
      return [String(cell.value)];
    case 'day':
    case 'word':
    case 'text':
      return [cell.value];
  }
}

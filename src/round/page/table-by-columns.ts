import type { Cell, DataTable } from '../../book/page-parts.js';
import type { Words } from '../../reference/words.js';

/** What is in each column of a table of these rows, by the key of the column's head under `area`. */
interface TableTold<Row> {
  readonly id: string;
  readonly caption: string;
  readonly area: string;
  readonly cells: Readonly<Record<string, (row: Row) => Cell | string>>;
  /** The columns that hold numbers. */
  readonly numbers?: readonly string[];
}

/** A table, column by column. */
export function tableByColumns<Row>(
  words: Words,
  rows: readonly Row[],
  { id, caption, area, cells, numbers = [] }: TableTold<Row>,
): DataTable {
  const asCell = (cell: Cell | string): Cell => (typeof cell === 'string' ? { text: cell } : cell);
  return {
    id,
    caption,
    columns: Object.keys(cells).map((key) => ({
      head: words.say(`${area}.${key}`),
      ...(numbers.includes(key) ? { number: true } : {}),
    })),
    rows: rows.map((row) => ({ cells: Object.values(cells).map((of) => asCell(of(row))) })),
  };
}

import type { Cell, DataTable } from '../../book/page-parts.js';
import type { Words } from '../../words/words.js';
import { cellInWords } from './cell-in-words.js';
import type { CellValue, ColumnName, SealedTable } from './column.js';
import { columnHead } from './column-words.js';

/** A table of the pack as the page shows it: columns that stand beneath another share its cell. */
export function pageTable(words: Words, table: SealedTable): DataTable {
  const groups = grouped(table.columns);
  return {
    id: `${table.name}-table`,
    caption: words.say(`audit.table.${table.name}.caption`),
    columns: groups.map(([main]) => ({
      head: columnHead(words, table.name, main.column.name),
      number: main.column.kind === 'number',
    })),
    rows: table.values(words).map((values) => ({
      cells: groups.map((group) => cellOf(words, table.name, group, values)),
    })),
  };
}

interface Placed {
  readonly column: ColumnName;
  /** Position among the table's columns. */
  readonly at: number;
}
type Group = readonly [Placed, ...Placed[]];

function grouped(columns: readonly ColumnName[]): Group[] {
  const groups: [Placed, ...Placed[]][] = [];
  for (const [at, column] of columns.entries()) {
    if (column.csvOnly) continue;
    const last = groups.at(-1);
    if (column.beneath && last) last.push({ column, at });
    else groups.push([{ column, at }]);
  }
  return groups;
}

function cellOf(words: Words, table: string, [main, ...beneath]: Group, values: readonly CellValue[]): Cell {
  const value = values[main.at];
  const [text = main.column.blank ? '' : '–', ...more] = cellInWords(words, main.column, value);
  const under = beneath.map(({ column, at }) => ({ column, said: cellInWords(words, column, values[at]) }));
  const items = under
    .filter(({ column, said }) => said.length > 0 && !column.unlabelled)
    .map(({ column, said }) => ({ lead: columnHead(words, table, column.name), text: said.join('; ') }));
  const lines = [...more, ...under.flatMap(({ column, said }) => (column.unlabelled ? said : []))];
  const isStrong = value?.kind === 'word' && main.column.strongWhen.includes(value.value);
  const isNothing = value === undefined && items.length + lines.length === 0;
  return {
    text,
    ...(isStrong ? { strong: true } : {}),
    ...(isNothing ? { nothing: true } : {}),
    ...(lines.length > 0 ? { lines } : {}),
    ...(items.length > 0 ? { items } : {}),
  };
}

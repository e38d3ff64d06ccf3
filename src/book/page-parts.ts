import type { Values, Words } from '../reference/words.js';

/** A label and what is beside it. */
export interface Fact {
  readonly label: string;
  readonly value: string;
  /** Further lines under the value. */
  readonly lines?: readonly string[];
}

export interface Cell {
  readonly text: string;
  /** A place in this book, `#…`. */
  readonly href?: string;
  /** Beside the link: the number of the case, since paper has no links. */
  readonly after?: string;
  /** A second, smaller line. */
  readonly note?: string;
  /** Further lines of the same weight, each its own. */
  readonly lines?: readonly string[];
  /** Instead of the text: several things, each with who or what it belongs to, and a smaller line under it. */
  readonly items?: readonly CellItem[];
  /** Set in bold: the words carry the meaning, the weight only helps the eye. */
  readonly strong?: boolean;
  /** Only a dash: on a phone, where each value is under its heading, it is left out. */
  readonly nothing?: boolean;
  /** The note is what matters here, as "overdue" is: as strong as the text. */
  readonly noteStrong?: boolean;
}

export interface CellItem {
  readonly lead: string;
  readonly text: string;
  readonly note?: string;
  /** What must catch the eye, as "overdue" does: the words say it, the look only helps. */
  readonly loud?: boolean;
}

export interface Column {
  readonly head: string;
  readonly number?: boolean;
}

/** First cell of a row is its heading. */
export interface DataTable {
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly { readonly cells: readonly Cell[] }[];
}

/** A table of heads and cells, each a text alone or whole. */
export function dataTable(
  id: string,
  caption: string,
  columns: readonly (string | Column)[],
  rows: readonly (readonly (string | Cell)[])[],
): DataTable {
  return {
    id,
    caption,
    columns: columns.map((head) => (typeof head === 'string' ? { head } : head)),
    rows: rows.map((cells) => ({
      cells: cells.map((cell) => (typeof cell === 'string' ? { text: cell } : cell)),
    })),
  };
}

/** The heads of columns, by their keys in one area of the words; those of numbers are aligned right. */
export function heads(words: Words, area: string, ...keys: readonly string[]): Column[] {
  return keys.map((key) => ({ head: words.say(`${area}.${key}`) }));
}
export function numberHeads(
  words: Words,
  area: string,
  keys: readonly string[],
  values: Values = {},
): Column[] {
  return keys.map((key) => ({ head: words.say(`${area}.${key}`, values), number: true }));
}

/** A cell of several lines; a dash for none. */
export function linesCell([first = '–', ...lines]: readonly string[]): Cell {
  return { text: first, ...(lines.length > 0 ? { lines } : {}) };
}

/** Facts by their keys in one area of the words; what is absent or empty is unknown and leaves no line. */
export function factsOf(
  words: Words,
  area: string,
  values: Readonly<Record<string, string | undefined>>,
): Fact[] {
  return Object.entries(values).flatMap(([key, value]) =>
    value ? [{ label: words.say(`${area}.${key}`), value }] : [],
  );
}

/** A list under its heading; undefined where there is nothing to list. */
export function listOf(heading: string, items: readonly string[]): TextList | undefined {
  return items.length === 0 ? undefined : { heading, items };
}

/** A heading, sentences, and a table where there is something to list. */
export interface TableSection {
  readonly id: string;
  readonly heading: string;
  readonly lead: readonly string[];
  readonly table?: DataTable;
}

/** A drawing with its words; `svg` is ours, never a user's. */
export interface BookFigure {
  readonly id: string;
  readonly heading: string;
  readonly svg: string;
  /** The same drawn for a phone, where that is another drawing. */
  readonly phone?: string;
  readonly notes: readonly string[];
  readonly tableSummary: string;
  /** On paper the table is left out: every number of it is in the drawing, the visits or the list of lesions of the same page. */
  readonly tableOnScreenOnly: boolean;
  readonly table: DataTable;
}

export interface FactList {
  readonly heading: string;
  readonly facts: readonly Fact[];
}

export interface TextList {
  readonly heading: string;
  readonly items: readonly string[];
}

/** A section with drawings, each with the table of its numbers; its own table holds what is in no drawing. */
export interface FarmSection extends TableSection {
  readonly figures?: readonly BookFigure[];
}

/** A label and what stands beside it. */
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
  /** Only a dash: on a phone, where each value stands under its heading, it is left out. */
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
  /** On paper the table is left out: every number of it stands in the drawing, the visits or the list of lesions of the same page. */
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

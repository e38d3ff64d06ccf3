/** The numbers of a figure as a table, to be folded under it: a figure is never the only place a number stands. */
export interface FigureTable {
  readonly caption: string;
  readonly columns: readonly string[];
  /** Each as long as `columns`; the first cell names its row. */
  readonly rows: readonly (readonly string[])[];
}

/** A drawing ready for a page. All strings but `svg` are plain text: the page escapes them. */
export interface Figure {
  /** One `<svg role="img">`, at natural size in CSS pixels, with title and description inside; wants `figureStyle()` on the page. */
  readonly svg: string;
  readonly title: string;
  readonly description: string;
  /** Short sentences to print under the drawing: what its marks mean, and what it leaves out. Only what occurs in it. */
  readonly notes: readonly string[];
  readonly table: FigureTable;
}

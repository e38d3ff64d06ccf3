import type { Figure } from '../figure/figure.js';
import type { Words } from '../words/words.js';
import type { BookFigure } from './page-parts.js';

/** A drawing as the page shows it, with its numbers as a table folded beneath. */
export function bookFigure(words: Words, id: string, figure: Figure, tableOnScreenOnly: boolean): BookFigure {
  return {
    id,
    heading: figure.title,
    svg: figure.svg,
    notes: figure.notes,
    tableSummary: words.say('book.figure.as-table'),
    tableOnScreenOnly,
    table: {
      id: `${id}-table`,
      caption: figure.table.caption,
      columns: figure.table.columns.map((head) => ({ head })),
      rows: figure.table.rows.map((cells) => ({ cells: cells.map((text) => ({ text })) })),
    },
  };
}

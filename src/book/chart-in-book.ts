import type { ChartFigure } from '../figure/chart/chart-figure.js';
import type { Words } from '../words/words.js';
import type { BookFigure, DataTable } from './page-parts.js';

/** A chart as the page shows it, with the table its numbers come from folded beneath; on paper both stand. */
export function chartInBook(words: Words, id: string, chart: ChartFigure, table: DataTable): BookFigure {
  return {
    id,
    heading: chart.title,
    svg: chart.svg,
    notes: chart.notes,
    tableSummary: words.say('book.figure.as-table'),
    tableOnScreenOnly: false,
    table,
  };
}

import type { Paper } from '../record/words.js';
import type { BookFigure } from './page-parts.js';
import { largest } from '../statistics/estimate.js';
import { textWidth, wrapText } from '../figure/wrap-text.js';

/** What may be printed on of one side. */
export interface Room {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Margins of a side, mm: above, beside, below. The `@page` rule of every book has the same. */
export const marginsMm = { above: 11, beside: 12, below: 10 };

const sidesMm: Readonly<Record<Paper, Room>> = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
};

/** The field of a side. @example roomOn('A4') // → { widthMm: 186, heightMm: 276 } */
export function roomOn(paper: Paper): Room {
  const { widthMm, heightMm } = sidesMm[paper];
  const { above, beside, below } = marginsMm;
  return { widthMm: widthMm - 2 * beside, heightMm: heightMm - above - below };
}

/** How a text is set. */
export interface Setting {
  readonly pt: number;
  /** Of the size of type. */
  readonly lineHeight: number;
  readonly weight?: 'regular' | 'bold';
}

const pxPerMm = 96 / 25.4;
const pxPerPt = 96 / 72;
/** A browser may break a line a little earlier than the sum. */
const careful = 0.985;

/**
 * Lines a text takes in a column: no page is measured while it is built, so what must fit a side is fitted by the widths
 * of the face that every page carries.
 *
 * Unit:    mm
 * Checked: tests/book/fit.test.ts, tests/browser/one-sheet.test.ts
 * @example linesIn('', 50, { pt: 9 }) // → 0
 */
export function linesIn(
  text: string,
  widthMm: number,
  { pt, weight = 'regular' }: Omit<Setting, 'lineHeight'>,
): number {
  if (text === '') return 0;
  const [width, size] = [Math.max(8, widthMm) * pxPerMm * careful, pt * pxPerPt];
  // A word longer than its line is broken, and begins a line of its own.
  const lines = wrapText(text, width, size, weight);
  return sumOf(lines.map((line) => Math.max(1, Math.ceil(textWidth(line, size, weight) / width))));
}

/** Height of a text in a column, mm. */
export function heightOf(text: string, widthMm: number, setting: Setting): number {
  return (linesIn(text, widthMm, setting) * setting.pt * setting.lineHeight * pxPerPt) / pxPerMm;
}

/** A text with a bold lead, as wide as both are: what bold takes more is put behind the lead. */
export function withLead(lead: string | undefined, text: string, { pt }: Pick<Setting, 'pt'>): string {
  if (!lead) return text;
  const size = pt * pxPerPt;
  const more = textWidth(lead, size, 'bold') - textWidth(lead, size);
  return `${lead}${'\u00a0'.repeat(Math.ceil(more / textWidth('\u00a0', size)))} ${text}`;
}

/** Heights one right above the other, mm. */
export function sumOf(heights: readonly number[]): number {
  return heights.reduce((sum, height) => sum + height, 0);
}

/** The highest of what is side by side, mm. */
export function highest(heights: readonly number[]): number {
  return largest(heights, 0);
}

/** Heights one above the other with a gap between, mm; what has no height takes no gap. */
export function stacked(heights: readonly number[], gapMm: number): number {
  const some = heights.filter((height) => height > 0);
  return sumOf(some) + gapMm * Math.max(0, some.length - 1);
}

/** A heading over a rule, with the room beneath it, mm. */
export const headingMm = 5.7;

/** Height of a drawing as it is drawn, mm. @example drawnMm('<svg class="fig" width="96" height="96">') // → 25.4 */
export function drawnMm(svg: string): number {
  return Number(/ height="([\d.]+)"/.exec(svg)?.[1] ?? 0) / pxPerMm;
}

/** A drawing with its heading and its notes, mm. */
export function figureMm({ svg, notes }: BookFigure, widthMm: number): number {
  return headingMm + 1.7 + drawnMm(svg) + heightOf(notes.join(' '), widthMm, { pt: 7.5, lineHeight: 1.3 });
}

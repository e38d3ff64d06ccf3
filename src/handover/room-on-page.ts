import { largest, smallest } from '../statistics/estimate.js';
import type { ActionBox } from '../book/animal-page-data.js';
import type { Cell, DataTable, Fact } from '../book/page-parts.js';
import { textWidth, wrapText } from '../figure/wrap-text.js';
import { handoverLimits } from './handover-limits.js';
import type { HandoverPage } from './handover-page.js';

const pxPerMm = 96 / 25.4;
const pxPerPt = 96 / 72;
const { type, heights, pictureMm } = handoverLimits;

/**
 * Whether a page's parts fit one sheet with room for a reply.
 *
 * Why a sum: no page is measured while it is built, since that would need a browser. The sum takes every text a little
 * wide; a browser counts the sheets in the tests.
 *
 * Unit:    mm of the sheet inside its margins
 * Checked: tests/browser/handover.test.ts
 */
export function fitsOneSheet(page: HandoverPage): boolean {
  const parts = Object.values(partHeights(page)).filter((height) => height > 0);
  const sum = parts.reduce((all, height) => all + height + heights.gap, -heights.gap);
  return sum <= handoverLimits.paper[page.paper].heightMm;
}

/** How high each part of a page stands, with the least room for a reply. */
export function partHeights(page: HandoverPage): Readonly<Record<string, number>> {
  const width = handoverLimits.paper[page.paper].widthMm;
  const { history, treatments, reply } = page;
  return {
    head:
      heights.head +
      linesHeight(page.heading, width - heights.chip, type.headingPt, 'bold') +
      linesHeight(page.identity, width, type.textPt) +
      linesHeight(page.handling ?? '', width, type.textPt, 'bold'),
    parties: factsHeight(page.parties, width),
    why: boxHeight(page.why, width),
    asks: boxHeight(page.asks, width),
    lesions: boxHeight(page.lesions, width) - heights.box,
    history: history ? heights.heading + tableHeight(history.table, historyColumns(history.table), width) : 0,
    state: sideBySide(page, width),
    treatments:
      heights.heading +
      (treatments.table
        ? tableHeight(treatments.table, handoverLimits.columns.treatments, width)
        : linesHeight(treatments.nothing ?? '', width, type.textPt)),
    reply:
      heights.heading +
      linesHeight(reply.lead, width, type.textPt) +
      heights.reply +
      linesHeight(reply.how, width, type.tablePt),
    leftOut: linesHeight(page.leftOut, width, type.tablePt),
    foot: linesHeight(page.foot, width, type.tablePt),
  };
}

/** Her state, in two columns, or beside the pictures: the higher of the two. */
function sideBySide({ state, pictures }: HandoverPage, width: number): number {
  if (!pictures) return heights.heading + factsHeight(state.facts, width, 2);
  const beside = pictures.shots.length * (pictureMm + heights.shotGap);
  const shots = pictures.shots.map(
    (shot) =>
      pictureMm * Math.min(1, shot.height / shot.width) + linesHeight(shot.caption, pictureMm, type.tablePt),
  );
  return heights.heading + largest(shots, factsHeight(state.facts, width - beside));
}

/** Per cent of the width of each column: day, the lesions, the two walks, the work. */
function historyColumns(table: DataTable): number[] {
  const { day, lesions, walkOff, walkOn, work } = handoverLimits.columns.history;
  const count = table.columns.length - 4;
  const each = Array.from({ length: count }, () => lesions / Math.max(1, count));
  return [day, ...each, walkOff, walkOn, work];
}

function tableHeight(table: DataTable, percents: readonly number[], width: number): number {
  const heads = largest(
    table.columns.map(({ head }, at) =>
      linesHeight(head, cellWidth(percents[at], width), type.tablePt, 'bold'),
    ),
  );
  const rows = table.rows.map(({ cells }) =>
    largest(
      cells.map((cell, at) =>
        cellHeight(at === 0 ? { ...cell, strong: true } : cell, cellWidth(percents[at], width)),
      ),
    ),
  );
  return (
    linesHeight(table.caption, width, type.tablePt) +
    [heads, ...rows].reduce((sum, height) => sum + height + heights.rowPadding, 0)
  );
}

/** Less the space between columns. */
function cellWidth(percent: number | undefined, width: number): number {
  return ((percent ?? 0) / 100) * width - heights.cellGap;
}

function cellHeight({ text, note, strong }: Cell, width: number): number {
  return (
    linesHeight(text, width, type.tablePt, strong ? 'bold' : 'regular') +
    linesHeight(note ?? '', width, type.tablePt)
  );
}

function boxHeight({ items }: ActionBox, width: number): number {
  const texts = items.map(({ lead, text }) =>
    linesHeight(
      `${lead ?? ''} ${text}`.trim(),
      width - heights.boxSides,
      type.textPt,
      lead ? 'bold' : 'regular',
    ),
  );
  return heights.heading + heights.box + texts.reduce((sum, height) => sum + height + heights.itemGap, 0);
}

/** A label and its value in each row, in one column, or in two that are as even as they can be. */
function factsHeight(facts: readonly Fact[], width: number, columns: 1 | 2 = 1): number {
  const value = (width - heights.columnGap * (columns - 1)) / columns - heights.label;
  const rows = facts.map((fact) => linesHeight(fact.value, value, type.textPt) + heights.factPadding);
  const sumOf = (some: readonly number[]) => some.reduce((sum, height) => sum + height, 0);
  if (columns === 1) return sumOf(rows);
  return smallest([...rows, 0].map((_, at) => Math.max(sumOf(rows.slice(0, at)), sumOf(rows.slice(at)))));
}

function linesHeight(
  text: string,
  widthMm: number,
  pt: number,
  weight: 'regular' | 'bold' = 'regular',
): number {
  if (text === '') return 0;
  const [width, size] = [Math.max(10, widthMm) * pxPerMm, pt * pxPerPt];
  // A word longer than its line is broken, and begins a line of its own.
  const lines = wrapText(text, width, size, weight).reduce(
    (sum, line) => sum + Math.max(1, Math.ceil(textWidth(line, size, weight) / width)),
    0,
  );
  return (lines * pt * type.lineHeight * pxPerPt) / pxPerMm;
}

import { largest, smallest } from '../statistics/estimate.js';
import type { ActionBox } from '../book/animal-page-data.js';
import { figureMm, heightOf, highest, roomOn, type Setting, stacked, sumOf } from '../book/fit.js';
import type { Cell, DataTable, Fact } from '../book/page-parts.js';
import { textWidth } from '../figure/wrap-text.js';
import { handoverLimits } from './handover-limits.js';
import type { HandoverPage } from './page-of-handover.js';

const { columns, pictureMm } = handoverLimits;
/** As `layouts/css/handover-print.css` sets them. */
const text: Setting = { pt: 8.5, lineHeight: 1.28 };
const small: Setting = { pt: 7.75, lineHeight: 1.28 };
const number: Setting = { pt: 30, lineHeight: 0.95, weight: 'bold' };
const what: Setting = { pt: 12, lineHeight: 1.2, weight: 'bold' };
const mm = { gap: 2, heading: 4.2, head: 18, number: 70, chip: 42, feet: 13, box: 2.8, boxSides: 7, item: 0.5, row: 1.1, cell: 3, fact: 0.4, label: 26, column: 5, shot: 4, reply: 26 }; // prettier-ignore
/** A browser sets a side a little taller than the sum. */
const slackMm = 1;

/**
 * Whether a page's parts fit one sheet with room for a reply.
 *
 * Unit:    mm of the sheet inside its margins
 * Checked: tests/browser/handover.test.ts
 */
export function fitsOneSheet(page: HandoverPage): boolean {
  return stacked(Object.values(partHeights(page)), mm.gap) <= roomOn(page.paper).heightMm - slackMm;
}

/** The height of each part of a page, with the least room for a reply. */
export function partHeights(page: HandoverPage): Readonly<Record<string, number>> {
  const { widthMm: width } = roomOn(page.paper);
  const { history, treatments, reply, figure } = page;
  return {
    head: headMm(page, width),
    parties: factsHeight(page.parties, width),
    boxes: smallest(boxHeights(page), Infinity),
    lesions: boxHeight(page.lesions, width) - mm.box,
    figure: figure ? figureMm(figure, width) : 0,
    history: history ? tableHeight(history.heading, history.table, historyColumns(history.table), width) : 0,
    state: sideBySide(page, width),
    treatments: treatments.table
      ? tableHeight(treatments.heading, treatments.table, columns.treatments, width)
      : mm.heading + heightOf(treatments.nothing ?? '', width, text),
    reply: mm.heading + heightOf(reply.lead, width, text) + mm.reply + heightOf(reply.how, width, small),
    foot: heightOf(`${page.leftOut} ${page.foot}`, width, small),
  };
}

/** Number, lesion, feet and standing side by side. */
function headMm(page: HandoverPage, width: number): number {
  const numberMm = Math.min(mm.number, (textWidth(page.heading, 40, 'bold') * 25.4) / 96 + 1);
  const middle = width - numberMm - mm.feet - mm.chip - 15;
  const lines =
    heightOf(page.what, middle, what) +
    heightOf(page.kicker, middle, small) +
    heightOf(page.identity, middle, small) +
    heightOf(page.handling ?? '', middle, { ...text, weight: 'bold' });
  return highest([mm.head, lines + 3.2, heightOf(page.heading, mm.number, number) + 3.2]);
}

/** Why now and what is asked are side by side where that is lower than one above the other. */
export function boxesSideBySide(page: HandoverPage): boolean {
  const [above, beside] = boxHeights(page);
  return beside < above;
}

function boxHeights({ why, asks, paper }: HandoverPage): readonly [above: number, beside: number] {
  const { widthMm } = roomOn(paper);
  const both = (width: number) => [why, asks].map((box) => boxHeight(box, width));
  return [stacked(both(widthMm), mm.gap), highest(both((widthMm - mm.shot) / 2))];
}

/** Her state, in two columns, or beside the pictures: the higher of the two. */
function sideBySide({ state, pictures, figure }: HandoverPage, width: number): number {
  const facts = figure ? state.facts : [...state.walks, ...state.facts];
  if (!pictures) return mm.heading + factsHeight(facts, width, 2);
  const beside = pictures.shots.length * (pictureMm + mm.shot);
  const shots = pictures.shots.map(
    (shot) => pictureMm * Math.min(1, shot.height / shot.width) + heightOf(shot.caption, pictureMm, small),
  );
  return mm.heading + largest(shots, factsHeight(facts, width - beside));
}

/** Per cent of the width of each column: day, the lesions, the two walks, the work. */
function historyColumns(table: DataTable): number[] {
  const { day, lesions, walkOff, walkOn, work } = columns.history;
  const count = table.columns.length - 4;
  const each = Array.from({ length: count }, () => lesions / Math.max(1, count));
  return [day, ...each, walkOff, walkOn, work];
}

/** The heading is on the line of the caption. */
function tableHeight(heading: string, table: DataTable, percents: readonly number[], width: number): number {
  const cellMm = ({ text: words, note = '', strong }: Cell, at: number): number => {
    const column = ((percents[at] ?? 0) / 100) * width - mm.cell;
    return (
      heightOf(words, column, { ...small, weight: strong || at === 0 ? 'bold' : 'regular' }) +
      heightOf(note, column, small)
    );
  };
  const heads = table.columns.map(({ head }) => ({ text: head, strong: true }));
  const rows = [heads, ...table.rows.map(({ cells }) => cells)];
  return (
    heightOf(`${heading}    ${table.caption}`, width, text) +
    mm.row +
    sumOf(rows.map((cells) => highest(cells.map(cellMm)) + mm.row))
  );
}

function boxHeight({ items }: ActionBox, width: number): number {
  const heights = items.map(({ lead = '', text: words }) => {
    const setting: Setting = { ...text, weight: lead ? 'bold' : 'regular' };
    return mm.item + heightOf(`${lead} ${words}`.trim(), width - mm.boxSides, setting);
  });
  return mm.heading + mm.box + sumOf(heights);
}

/** A label and its value in each row, in one column, or in two that are as even as they can be. */
function factsHeight(facts: readonly Fact[], width: number, count: 1 | 2 = 1): number {
  const value = (width - mm.column * (count - 1)) / count - mm.label;
  const rows = facts.map((fact) => heightOf(fact.value, value, text) + mm.fact);
  if (count === 1) return sumOf(rows);
  return smallest([...rows, 0].map((_, at) => Math.max(sumOf(rows.slice(0, at)), sumOf(rows.slice(at)))));
}

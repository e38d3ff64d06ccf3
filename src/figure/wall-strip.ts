import { largest } from '../statistics/estimate.js';
import type { Words } from '../reference/words.js';
import { dayAxisHeight, drawDayAxis, type DayUnderBar } from './day-axis.js';
import { drawing, type Figure, hatch } from './figure.js';
import { label, line, lines, path, px } from './svg-mark.js';
import { drawExpectedBar, drawOutBar, drawWallBar, type BarFills, barWidth } from './wall-bar.js';
import { wallColumns, type WallColumn, type WallColumns, type NoteLine } from './wall-columns.js';
import {
  wallScale,
  type WallScale,
  wallStripTable,
  wallStripDescription,
  wallStripNotes,
  wallStripTitle,
} from './wall-strip-words.js';
import type { WallStripInput, HeldStretch, WallBar } from './drawn-wall.js';
import { textWidth, wrapText } from './wrap-text.js';

/** A bar with its middle, and the one column before it where that is a bar too. */
interface PlacedBar {
  readonly bar: WallBar;
  readonly x: number;
  readonly notes: readonly NoteLine[];
}

function placesOfBars(columns: readonly WallColumn[], middle: (at: number) => number): PlacedBar[] {
  return columns.flatMap((column, at) =>
    column.what === 'bar' ? [{ bar: column.bar, x: middle(at), notes: column.notes }] : [],
  );
}

/** A bracket over the bars of each stretch in which the top stood still; cut at the bars that are shown. */
function drawHeldBrackets(held: readonly HeldStretch[], bars: readonly PlacedBar[], y: number): string {
  return held
    .map(({ from, to }) => {
      const inside = bars.filter(({ bar }) => bar.date >= from && bar.date <= to);
      const [first, last] = [inside[0], inside.at(-1)];
      if (!first || !last) return '';
      const half = barWidth / 2;
      return path('up', `M${px(first.x - half)} ${px(y + 6)}v-6H${px(last.x + half)}v6`);
    })
    .join('');
}

/** Less would be all head, px. */
const shortestArrow = 8;

/**
 * An arrow left of a bar whose top was found higher: from where growth would have brought it, else from the reading
 * before, up to where it was found.
 */
function drawRunUps(bars: readonly PlacedBar[], scale: WallScale, pitch: number): string {
  return bars
    .map(({ bar, x }, at) => {
      if (bar.kind !== 'ran-up' || bar.topMm === undefined) return '';
      const before = bars[at - 1]?.bar.topMm;
      const fromMm = bar.ranUpMm === undefined ? before : bar.topMm + bar.ranUpMm;
      if (fromMm === undefined || fromMm <= bar.topMm) return '';
      const [tip, tail] = [scale.y(bar.topMm), Math.min(scale.y(fromMm), scale.groundY)];
      if (tail - tip < shortestArrow) return '';
      const arrowX = x - pitch / 2 + 1;
      return path(
        'up',
        `M${px(arrowX)} ${px(tail)}V${px(tip + 1)}m-4 6l4-6l4 6M${px(arrowX - 4)} ${px(tail)}h8`,
      );
    })
    .join('');
}

/** Room for the names of the scale, at least; a longer word for the coronet widens it. */
const usualAxisWidth = 54;
const lineHeight = 13;
const bracketHeight = 12;

/**
 * The wall strip: one gap, one bar a visit, to scale, coronet at the top, so that eyes see horn come down.
 *
 * Bars stand evenly, with the days between written below: to scale in time, two visits a week apart would cover each
 * other's readings and a year without one would push the rest off the sheet.
 */
export function wallStrip(input: WallStripInput, words: Words): Figure {
  const title = wallStripTitle(input, words);
  const description = wallStripDescription(input, words);
  const columns = wallColumns(input, words);
  return {
    svg: draw(input, columns, words, title, description),
    title,
    description,
    notes: wallStripNotes(input, columns.leftOut, words),
    table: wallStripTable(input, title, words),
  };
}

function draw(
  input: WallStripInput,
  { columns, pitch }: WallColumns,
  words: Words,
  title: string,
  description: string,
) {
  const hatches = [hatch(input.id, 'open'), hatch(input.id, 'covered'), hatch(input.id, 'expected')] as const;
  const fills: BarFills = { open: hatches[0].fill, covered: hatches[1].fill, expected: hatches[2].fill };
  const coronet = wrapText(words.say('figure.axis.coronet'), usualAxisWidth - 8, 12);
  const axisWidth = largest(
    coronet.map((text) => Math.ceil(textWidth(text, 12)) + 10),
    usualAxisWidth,
  );
  const middle = (at: number) => axisWidth + (at + 0.5) * pitch;
  const placed = placesOfBars(columns, middle);
  const noteLines = largest(
    placed.map(({ notes }) => notes.length),
    input.expected.length || input.out ? 1 : 0,
  );
  const notesHeight = noteLines * lineHeight + 4;
  const coronetY = notesHeight + (input.held.length ? bracketHeight : 0) + 6;
  const scale = wallScale(
    [...placed.map(({ bar }) => Math.max(bar.wallMm, bar.topMm ?? 0)), input.wall.mm],
    coronetY,
  );
  const width = Math.max(axisWidth + columns.length * pitch + 10, 150);
  const body =
    drawScale(scale, coronet, axisWidth, width, words) +
    columns.map((column, at) => drawColumn(column, middle(at), input, scale, fills, words)).join('') +
    line('top', axisWidth - 6, coronetY, width - 4, coronetY) +
    placed.map((bar) => writeNotes(bar, notesHeight - 4)).join('') +
    drawHeldBrackets(input.held, placed, notesHeight + 4) +
    drawRunUps(placed, scale, pitch) +
    divider(columns, scale, middle, pitch, words) +
    drawDayAxis(daysUnder(columns, input, middle), scale.groundY + 2, words);
  return drawing({
    id: input.id,
    width,
    height: scale.groundY + dayAxisHeight + 2,
    title,
    description,
    defs: hatches.map(({ def, fill }) => (body.includes(fill) ? def : '')).join(''),
    body,
  });
}

/** Thin lines every 20 mm (every 50 on a very long wall), named at the left. */
function drawScale(
  scale: WallScale,
  coronet: readonly string[],
  left: number,
  right: number,
  words: Words,
): string {
  const step = 20 * scale.pxPerMm < 34 ? 50 : 20;
  const first = scale.coronetY + 4 - ((coronet.length - 1) * lineHeight) / 2;
  let drawn = coronet.map((text, at) => label('t', left - 8, first + at * lineHeight, text, 'end')).join('');
  const rules: [number, number, number, number][] = [];
  for (let mm = step; scale.y(mm) <= scale.groundY; mm += step) {
    rules.push([left - 4, scale.y(mm), right - 4, scale.y(mm)]);
    drawn += label(
      's',
      left - 8,
      scale.y(mm) + 4,
      mm === step ? words.say('figure.mm', { mm }) : String(mm),
      'end',
    );
  }
  return lines('rule', rules) + drawn;
}

function drawColumn(
  column: WallColumn,
  x: number,
  input: WallStripInput,
  scale: WallScale,
  fills: BarFills,
  words: Words,
): string {
  switch (column.what) {
    case 'bar':
      return drawWallBar(column.bar, x, scale, fills, words);
    case 'expected':
      return drawExpectedBar(input.expected[column.at]!, input.wall.mm, x, scale, fills);
    case 'out':
      return drawOutBar(input.wall.mm, x, scale, words.say('figure.wall.out'));
    case 'break':
    case 'no-date':
      return column.lines
        .map((text, at) => label('s', x, scale.coronetY + 22 + at * lineHeight, text))
        .join('');
  }
}

/** Lines over a bar; the last stands lowest, next to its bar. */
function writeNotes({ x, notes }: PlacedBar, lowestY: number): string {
  return notes
    .map(({ text, mark }, at) => label(mark, x, lowestY - (notes.length - 1 - at) * lineHeight, text))
    .join('');
}

/** What has been seen to its left, what is expected to its right. */
function divider(
  columns: readonly WallColumn[],
  scale: WallScale,
  middle: (at: number) => number,
  pitch: number,
  words: Words,
): string {
  const first = columns.findIndex(({ what }) => what === 'expected' || what === 'out' || what === 'no-date');
  if (first < 0) return '';
  const x = middle(first) - pitch / 2;
  const noDate = columns[first]!.what === 'no-date';
  return (
    line('divide', x, 4, x, scale.groundY) +
    (noDate ? '' : label('t', x + 5, 13, words.say('figure.wall.expected'), 'start'))
  );
}

function daysUnder(
  columns: readonly WallColumn[],
  input: WallStripInput,
  middle: (at: number) => number,
): DayUnderBar[] {
  return columns.flatMap((column, at): DayUnderBar[] => {
    const x = middle(at);
    if (column.what === 'bar') return [{ x, day: column.bar.date, later: false }];
    if (column.what === 'expected') return [{ x, day: input.expected[column.at]!.date, later: true }];
    return column.what === 'out' && column.day !== null ? [{ x, day: column.day, later: true }] : [];
  });
}

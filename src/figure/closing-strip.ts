import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';
import { largest } from '../statistics/estimate.js';
import type { Words } from '../reference/words.js';
import { dayAxisHeight, drawDayAxis, leastPitch } from './day-axis.js';
import { drawing, type Figure, type FigureTable, hatch } from './figure.js';
import { placeInWords, dayInWords } from '../words/number-in-words.js';
import { label, line, path, px } from './svg-mark.js';
import { textWidth } from './wrap-text.js';

/** One visit to an ulcer. Lengths in mm, over all. */
export interface ClosingBar {
  readonly date: CalendarDay;
  readonly lengthMm?: number;
  readonly widthMm?: number;
  /** How it reads, beyond plainly open. */
  readonly reads?: 'covered' | 'healed' | 'came-back' | 'opening-up' | 'doubtful' | 'held';
  /** The reading taught nothing. */
  readonly unused?: boolean;
}

/** The width a later visit should show, 80 %. */
export interface ExpectedWidth {
  readonly date: CalendarDay;
  readonly meanMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** All that the drawing of one ulcer shows. */
export interface ClosingStripInput {
  /** Unique on the page. */
  readonly id: string;
  readonly lesion: string;
  readonly foot: Foot;
  readonly claw?: Claw;
  /** Oldest first. */
  readonly bars: readonly ClosingBar[];
  readonly expected: readonly ExpectedWidth[];
  /** The date with its range, or why none, as one sentence already worded. */
  readonly outlook?: string;
}

/** The usual scale, px a mm, and the size at which a larger hole is drawn. */
const usualPxPerMm = 3.4;
const largestPx = 96;
/** A sheet of paper at natural size. */
const widestPx = 680;
const least = 64;
const topY = 20;

/** An ulcer seen from below, visit by visit, length and width to one scale: the two edges should come together. */
export function closingStrip(input: ClosingStripInput, words: Words): Figure {
  const title = words.say('figure.closing.title', {
    lesion: input.lesion,
    place: placeInWords(words, input.foot, input.claw),
  });
  const description = closingStripDescription(input, words);
  const { pitch, pxPerMm, tall } = measure(input, words);
  const room = Math.max(2, Math.floor((widestPx - 12) / pitch) - input.expected.length);
  const leftOut = Math.max(0, input.bars.length - room);
  const shown = { ...input, bars: input.bars.slice(leftOut) };
  return {
    svg: draw(shown, { pitch, pxPerMm, tall }, title, description, words),
    title,
    description,
    notes: closingStripNotes(input, leftOut, words),
    table: closingStripTable(input, title, words),
  };
}

interface Measure {
  /** Width of a column, px: enough for the largest hole and the longest words. */
  readonly pitch: number;
  readonly pxPerMm: number;
  /** Height of the largest hole, px. */
  readonly tall: number;
}

function measure({ bars, expected }: ClosingStripInput, words: Words): Measure {
  const lengths = [
    ...bars.flatMap(({ lengthMm = 0, widthMm = 0 }) => [lengthMm, widthMm]),
    ...expected.map(({ highMm }) => highMm),
  ];
  const longest = largest(lengths, 10);
  const pxPerMm = Math.min(usualPxPerMm, largestPx / longest);
  const widest = largest(
    [...bars.map(({ widthMm = 0 }) => widthMm), ...expected.map(({ highMm }) => highMm)],
    0,
  );
  const texts = bars.flatMap((bar) => [sizeInWords(bar, words), readsInWords(bar, words)]);
  return {
    pxPerMm,
    tall: Math.max(40, longest * pxPerMm),
    pitch: Math.max(
      least,
      leastPitch(
        [...bars, ...expected].map(({ date }) => date),
        words,
      ),
      widest * pxPerMm + 14,
      largest(texts.map((text) => textWidth(text, 13, 'bold') + 8)),
    ),
  };
}

function draw(
  input: ClosingStripInput,
  { pitch, pxPerMm, tall }: Measure,
  title: string,
  description: string,
  words: Words,
): string {
  const { bars, expected } = input;
  const hatches = {
    open: hatch(input.id, 'open'),
    covered: hatch(input.id, 'covered'),
    expected: hatch(input.id, 'expected'),
  };
  const fills: HoleFills = {
    open: hatches.open.fill,
    covered: hatches.covered.fill,
    expected: hatches.expected.fill,
  };
  const x = (at: number) => (at + 0.5) * pitch + 6;
  const [middleY, sizeY] = [topY + tall / 2, topY + tall + 18];
  const seen = bars.map(
    (bar, at) =>
      drawHole(bar, x(at), middleY, pxPerMm, fills) +
      label('k', x(at), 12, readsInWords(bar, words)) +
      label('n', x(at), sizeY, sizeInWords(bar, words)),
  );
  const later = expected.map((of, at) => {
    const place = x(bars.length + at);
    return (
      drawExpectedHole(of, place, middleY, pxPerMm, fills) +
      label('e', place, sizeY, widthRangeInWords(of, words))
    );
  });
  const divideX = x(bars.length) - pitch / 2;
  const divider =
    line('divide', divideX, 2, divideX, sizeY + 4) +
    label('t', divideX + 5, 12, words.say('figure.closing.expected'), 'start');
  const days = [...bars, ...expected].map(({ date }, at) => ({
    x: x(at),
    day: date,
    later: at >= bars.length,
  }));
  const body = [...seen, ...later, later.length ? divider : '', drawDayAxis(days, sizeY + 4, words)].join('');
  return drawing({
    id: input.id,
    width: Math.max(150, days.length * pitch + 12),
    height: sizeY + 4 + dayAxisHeight,
    title,
    description,
    defs: Object.values(hatches)
      .map(({ def, fill }) => (body.includes(fill) ? def : ''))
      .join(''),
    body,
  });
}

/** The fills of the drawing a hole stands in. */
interface HoleFills {
  readonly open: string;
  readonly covered: string;
  readonly expected: string;
}

/** A hole seen from below round its middle: width across, length up and down; heavy arcs are the edges that should meet. */
function drawHole(bar: ClosingBar, x: number, y: number, pxPerMm: number, fills: HoleFills): string {
  const closed = bar.reads === 'covered' || bar.reads === 'healed';
  if (!bar.widthMm) {
    if (closed) return line('top', x, y - 14, x, y + 14);
    return oval('gone', x, y, 16, 16) + label('n', x, y + 4.5, '?');
  }
  const [across, along] = [bar.widthMm, bar.lengthMm ?? bar.widthMm].map((mm) => (mm * pxPerMm) / 2) as [
    number,
    number,
  ];
  const fill = closed ? fills.covered : fills.open;
  if (bar.lengthMm === undefined) return oval('gone', x, y, across, along, fill);
  return oval('edge', x, y, across, along, fill) + (bar.unused ? '' : sides(x, y, across, along));
}

/** A later visit: a dashed round of the expected width, and under it from the widest to the narrowest likely one. */
function drawExpectedHole(
  of: ExpectedWidth,
  x: number,
  y: number,
  pxPerMm: number,
  fills: HoleFills,
): string {
  const [low, mean, high] = [of.lowMm, of.meanMm, of.highMm].map((mm) => (Math.max(0, mm) * pxPerMm) / 2) as [
    number,
    number,
    number,
  ];
  const under = y + Math.max(mean, 4) + 9;
  const range = (sign: 1 | -1) =>
    `M${px(x + sign * low)} ${px(under - 4)}v8m0-4H${px(x + sign * high)}m0-4v8`;
  return (
    (mean > 0 ? oval('dash', x, y, mean, mean, fills.expected) : line('unsure', x, y - 10, x, y + 10)) +
    path('thin', range(-1) + range(1))
  );
}

function oval(mark: string, x: number, y: number, across: number, along: number, fill?: string): string {
  const shape = (look: string) =>
    `<ellipse ${look} cx="${px(x)}" cy="${px(y)}" rx="${px(across)}" ry="${px(along)}"/>`;
  if (fill === undefined) return shape(`class="${mark}"`);
  return shape(`fill="${fill}"`) + shape(`class="${mark}"${mark === 'edge' ? '' : ' fill-opacity="0"'}`);
}

/** The middle part of each side, heavy. */
function sides(x: number, y: number, across: number, along: number): string {
  const [dx, dy] = [across * 0.8, along * 0.6];
  const side = (sign: 1 | -1) =>
    `M${px(x + sign * dx)} ${px(y - dy)}A${px(across)} ${px(along)} 0 0 ${sign === 1 ? 1 : 0} ${px(x + sign * dx)} ${px(y + dy)}`;
  return path('top', side(1) + side(-1));
}

/** Length by width; empty without a size. @example sizeInWords({ lengthMm: 22, widthMm: 16 }, words) // → '22 × 16' */
export function sizeInWords({ lengthMm, widthMm }: ClosingBar, words: Words): string {
  if (widthMm === undefined) return '';
  return lengthMm === undefined
    ? words.say('figure.closing.width-only', { width: words.number(px(widthMm)) })
    : words.say('figure.closing.size', {
        length: words.number(px(lengthMm)),
        width: words.number(px(widthMm)),
      });
}

/** How it reads, empty where it is plainly open. */
function readsInWords({ reads, widthMm }: ClosingBar, words: Words): string {
  if (reads) return words.say(`figure.closing.state.${reads}`);
  return widthMm === undefined ? words.say('figure.closing.state.no-length') : '';
}

/** @example widthRangeInWords({ lowMm: -1.2, highMm: 5.4 }, words) // → '0 to 5' */
export function widthRangeInWords({ lowMm, highMm }: ExpectedWidth, words: Words): string {
  return words.say('figure.range', { low: Math.round(Math.max(0, lowMm)), high: Math.round(highMm) });
}

function closedWithSize({ reads, widthMm }: ClosingBar): boolean {
  return (reads === 'covered' || reads === 'healed') && Boolean(widthMm);
}

/** Sentences under the strip: only for marks that occur in it. */
function closingStripNotes(input: ClosingStripInput, leftOut: number, words: Words): string[] {
  const { bars, expected, outlook } = input;
  const say = (key: string, values = {}) => words.say(`figure.closing.note.${key}`, values);
  return [
    bars.length ? say('scale') : '',
    bars.some(({ widthMm, lengthMm }) => widthMm && lengthMm === undefined) ? say('width-only') : '',
    bars.some(closedWithSize) ? say('covered') : '',
    expected.length ? say('expected') : '',
    bars.length > 1 ? say('spacing') : '',
    leftOut ? words.say('figure.wall.note.left-out', { count: leftOut }) : '',
    outlook ?? '',
  ].filter(Boolean);
}

/** The last three sizes with their days, and the outlook. */
function closingStripDescription({ bars, outlook }: ClosingStripInput, words: Words): string {
  if (bars.length === 0) return words.say('figure.wall.description.none');
  const sizes = bars.slice(-3).map((bar) =>
    words.say('figure.closing.on-day', {
      date: dayInWords(words, bar.date),
      size: words.commas([sizeInWords(bar, words), readsInWords(bar, words)]),
    }),
  );
  return [...sizes, outlook ?? ''].filter(Boolean).join(' ');
}

/** Every visit, those left out of the drawing too, then what is expected. */
function closingStripTable(
  { bars, expected }: ClosingStripInput,
  caption: string,
  words: Words,
): FigureTable {
  const say = (key: string) => words.say(`figure.closing.column.${key}`);
  const days = [...bars, ...expected].map(({ date }) => date);
  const since = (at: number) => (at === 0 ? '' : String(daysBetween(days[at - 1]!, days[at]!)));
  return {
    caption,
    columns: [say('date'), words.say('figure.wall.column.days'), say('length'), say('width'), say('reads')],
    rows: [
      ...bars.map((bar, at) => [
        dayInWords(words, bar.date),
        since(at),
        bar.lengthMm === undefined ? '' : words.number(px(bar.lengthMm)),
        bar.widthMm === undefined ? '' : words.number(px(bar.widthMm)),
        readsInWords(bar, words) || words.say('figure.closing.state.open'),
      ]),
      ...expected.map((of, at) => [
        dayInWords(words, of.date),
        since(bars.length + at),
        '',
        widthRangeInWords(of, words),
        words.say('figure.closing.expected'),
      ]),
    ],
  };
}

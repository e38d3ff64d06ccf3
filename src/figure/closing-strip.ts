import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { ClosingBar, ClosingStripInput } from './closing-strip-input.js';
import { dayAxisHeight, drawDayAxis, leastPitch } from './day-axis.js';
import { drawing } from './drawing.js';
import type { Figure, FigureTable } from './figure.js';
import { hatch } from './hatch.js';
import { placeInWords } from './place-in-words.js';
import { label, line, path, px } from './svg-mark.js';
import { textWidth } from './text-width.js';

/** The usual scale, px a mm, and the largest hole that still fits at it. */
const usualPxPerMm = 2.6;
const largestPx = 130;
const mostColumns = 10;
const gapPx = 14;
const topY = 20;

/** An ulcer seen from below, visit by visit, length and width to one scale: the two edges should come together. */
export function closingStrip(input: ClosingStripInput, words: Words): Figure {
  const title = words.say('figure.closing.title', {
    lesion: input.lesion,
    place: placeInWords(input.foot, input.claw, words),
  });
  const notes = notesOf(input, words);
  const table = tableOf(input, title, words);
  const description = describe(input, notes, words);
  return { svg: draw(input, title, description, words), title, description, notes, table };
}

function draw(input: ClosingStripInput, title: string, description: string, words: Words): string {
  const bars = input.bars.slice(-(mostColumns - input.expected.length));
  const days: CalendarDay[] = [...bars, ...input.expected].map(({ date }) => date);
  const largest = Math.max(
    10,
    ...bars.flatMap(({ lengthMm, widthMm }) => [lengthMm ?? 0, widthMm ?? 0]),
    ...input.expected.map(({ highMm }) => highMm),
  );
  const pxPerMm = Math.min(usualPxPerMm, largestPx / largest);
  const words1 = [
    ...bars.map((bar) => sizeInWords(bar, words)),
    ...bars.map((bar) => stateInWords(bar, words)),
  ];
  const pitch = Math.max(
    64,
    leastPitch(days, words),
    largest * pxPerMm + gapPx,
    ...words1.map((text) => textWidth(text, 13, 'bold') + 6),
  );
  const tall = largest * pxPerMm;
  const middleY = topY + tall / 2;
  const x = (at: number) => (at + 0.5) * pitch + 6;
  const fills = [hatch(input.id, 'open'), hatch(input.id, 'covered'), hatch(input.id, 'expected')] as const;
  const sizeY = topY + tall + 18;
  const drawn = bars.map(
    (bar, at) =>
      drawHole(bar, x(at), middleY, pxPerMm, fills[0].fill, fills[1].fill) +
      label('k', x(at), 12, stateInWords(bar, words)) +
      label('n', x(at), sizeY, sizeInWords(bar, words)),
  );
  const later = input.expected.map((of, at) => {
    const place = x(bars.length + at);
    const [low, mean, high] = [of.lowMm, of.meanMm, of.highMm].map(
      (mm) => (Math.max(0, mm) * pxPerMm) / 2,
    ) as [number, number, number];
    return (
      oval('dash', place, middleY, mean, mean, fills[2].fill) +
      path(
        'thin',
        whisker(place - low, place - high, middleY) + whisker(place + low, place + high, middleY),
      ) +
      label(
        'e',
        place,
        sizeY,
        words.say('figure.range', { low: Math.round(Math.max(0, of.lowMm)), high: Math.round(of.highMm) }),
      )
    );
  });
  const divideX = x(bars.length) - pitch / 2;
  const body =
    drawn.join('') +
    later.join('') +
    (later.length
      ? line('divide', divideX, 2, divideX, sizeY + 4) +
        label('t', divideX + 5, 12, words.say('figure.closing.expected'), 'start')
      : '') +
    drawDayAxis(
      days.map((day, at) => ({ x: x(at), day, later: at >= bars.length })),
      sizeY + 4,
      words,
    );
  return drawing({
    id: input.id,
    width: Math.max(150, days.length * pitch + 12),
    height: sizeY + 4 + dayAxisHeight,
    title,
    description,
    defs: fills.map(({ def, fill }) => (body.includes(fill) ? def : '')).join(''),
    body,
  });
}

function whisker(from: number, to: number, y: number): string {
  return `M${px(from)} ${px(y - 4)}v8m0-4H${px(to)}m0-4v8`;
}

/** Width across, length up and down; heavy arcs are the edges that should meet. */
function drawHole(
  bar: ClosingBar,
  x: number,
  y: number,
  pxPerMm: number,
  open: string,
  covered: string,
): string {
  const closed = bar.reads === 'covered' || bar.reads === 'healed';
  if (bar.widthMm === undefined || bar.widthMm === 0) {
    if (closed) return line('top', x, y - 14, x, y + 14);
    return oval('gone', x, y, 16, 16) + label('n', x, y + 4.5, '?');
  }
  const [a, b] = [(bar.widthMm * pxPerMm) / 2, ((bar.lengthMm ?? bar.widthMm) * pxPerMm) / 2];
  const fill = closed ? covered : open;
  if (bar.lengthMm === undefined) return oval('gone', x, y, a, b, fill);
  return oval('edge', x, y, a, b, fill) + (bar.unused ? '' : sides(x, y, a, b));
}

function oval(mark: string, x: number, y: number, a: number, b: number, fill?: string): string {
  const shape = (look: string) =>
    `<ellipse ${look} cx="${px(x)}" cy="${px(y)}" rx="${px(a)}" ry="${px(b)}"/>`;
  return (
    (fill ? shape('class="plate"') + shape(`fill="${fill}"`) : '') +
    shape(fill ? `class="${mark}" fill-opacity="0"` : `class="${mark}"`)
  );
}

/** The middle third of each side. */
function sides(x: number, y: number, a: number, b: number): string {
  const [dx, dy] = [a * 0.8, b * 0.6];
  const side = (sign: 1 | -1) =>
    `M${px(x + sign * dx)} ${px(y - dy)}A${px(a)} ${px(b)} 0 0 ${sign === 1 ? 1 : 0} ${px(x + sign * dx)} ${px(y + dy)}`;
  return path('top', side(1) + side(-1));
}

function sizeInWords({ lengthMm, widthMm }: ClosingBar, words: Words): string {
  if (widthMm === undefined) return '';
  return lengthMm === undefined
    ? words.say('figure.closing.width-only', { width: px(widthMm) })
    : words.say('figure.closing.size', { length: px(lengthMm), width: px(widthMm) });
}

function stateInWords({ reads, widthMm }: ClosingBar, words: Words): string {
  if (reads) return words.say(`figure.closing.state.${reads}`);
  return widthMm === undefined ? words.say('figure.closing.state.no-length') : '';
}

function notesOf({ bars, expected, outlook }: ClosingStripInput, words: Words): string[] {
  const say = (key: string) => words.say(`figure.closing.note.${key}`);
  return [
    bars.length ? say('scale') : '',
    bars.some(({ widthMm, lengthMm }) => widthMm !== undefined && lengthMm === undefined)
      ? say('width-only')
      : '',
    bars.some(({ reads }) => reads === 'covered' || reads === 'healed') ? say('covered') : '',
    expected.length ? say('expected') : '',
    bars.length > 1 ? say('spacing') : '',
    outlook ?? '',
  ].filter(Boolean);
}

function describe({ bars }: ClosingStripInput, notes: readonly string[], words: Words): string {
  const sizes = bars.map(
    (bar) => `${dayInWords(words, bar.date)}: ${sizeInWords(bar, words) || stateInWords(bar, words)}.`,
  );
  return [...sizes.slice(-3), ...notes.slice(-1)].join(' ');
}

function tableOf({ bars, expected }: ClosingStripInput, caption: string, words: Words): FigureTable {
  const say = (key: string) => words.say(`figure.closing.column.${key}`);
  return {
    caption,
    columns: [say('date'), words.say('figure.wall.column.days'), say('length'), say('width'), say('reads')],
    rows: [
      ...bars.map((bar, at) => [
        dayInWords(words, bar.date),
        at === 0 ? '' : String(daysBetween(bars[at - 1]!.date, bar.date)),
        bar.lengthMm === undefined ? '' : px(bar.lengthMm),
        bar.widthMm === undefined ? '' : px(bar.widthMm),
        stateInWords(bar, words) || words.say('figure.closing.state.open'),
      ]),
      ...expected.map(({ date, lowMm, highMm }) => [
        dayInWords(words, date),
        '',
        '',
        words.say('figure.range', { low: Math.round(Math.max(0, lowMm)), high: Math.round(highMm) }),
        words.say('figure.closing.expected'),
      ]),
    ],
  };
}

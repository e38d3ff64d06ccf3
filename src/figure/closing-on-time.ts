import type { OutRange } from '../growth/animal-growth.js';
import type { NextWidth } from '../healing/closing/ulcer-closing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';
import type { Words } from '../reference/words.js';
import { largest } from '../statistics/estimate.js';
import { dayInWords, placeInWords } from '../words/day-and-place.js';
import type { Figure } from './figure.js';
import { line, path, px } from './svg-mark.js';
import {
  byWeight,
  dayBeside,
  daysSince,
  type DrawingRoom,
  drawOnTime,
  endingAt,
  halfOf,
  lengthInWords,
  type OnTime,
  rangeInMm,
  type TimeAxis,
  type TimeFills,
  topRoom,
  type WantsPlace,
} from './time-axis.js';
import { beneathNotes } from './visit-timeline.js';

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

/** All that the drawing of one ulcer shows. */
export interface ClosingInput {
  /** Unique on the page. */
  readonly id: string;
  readonly lesion: string;
  readonly foot: Foot;
  readonly claw?: Claw;
  /** Oldest first. */
  readonly bars: readonly ClosingBar[];
  readonly expected: readonly Pick<NextWidth, 'date' | 'lowMm' | 'highMm'>[];
  /** When it should have closed. */
  readonly closes?: OutRange<CalendarDay>;
}

/** All that an ulcer on true time shows. */
export interface ClosingOnTime extends OnTime {
  readonly strip: ClosingInput;
}

/** A usual ulcer fills the height of a small wall; the widest is drawn smaller. */
const usualPxPerMm = 5;
const tallestPx = 130;

/** Where it lies up and down: round one middle. */
interface Middle {
  readonly y: number;
  readonly pxPerMm: number;
}

/**
 * One ulcer on true time: at each look its width, up and down round one middle, so that its two edges come together like
 * a wedge as it closes; length and width in figures.
 *
 * Checked: tests/figure/closing-on-time.test.ts
 */
export function closingOnTime({ strip, ...of }: ClosingOnTime, words: Words, room: DrawingRoom): Figure {
  const { bars, closes, lesion } = strip;
  const widest = largest([4, ...bars.map(({ widthMm = 0 }) => widthMm)]);
  const pxPerMm = Math.min(usualPxPerMm, tallestPx / widest);
  const middle = { y: topRoom + (widest * pxPerMm) / 2 + 6, pxPerMm };
  const bottom = middle.y + (widest * pxPerMm) / 2 + 8;
  const days = bars.map(({ date }) => date);
  const title = words.say('figure.closing.title', {
    lesion,
    place: placeInWords(words, strip.foot, strip.claw),
  });
  const { leftOut: _, ...drawn } = drawOnTime(
    {
      ...of,
      id: `${strip.id}-${room.of}`,
      room,
      title,
      description: lastSizes(strip, words),
      days: weighty(bars).map(({ date }) => date),
      until: closes?.late ?? closes?.best,
      names: [],
      bottom,
      gap: 8,
      draw: (axis, fills) => {
        const rx = halfOf(days, axis, 11);
        return {
          body:
            line('divide', axis.left, middle.y, axis.right, middle.y) +
            wedge(strip, axis, middle) +
            bars.map((bar) => drawLook(bar, axis.x(bar.date), rx, middle, fills)).join(''),
          texts: [
            ...closesText(closes, of.today, axis, bottom - 2, words),
            ...sizes(bars, axis, middle, words),
          ],
        };
      },
    },
    words,
  );
  const note = (occurs: unknown, key: string) => (occurs ? [words.say(`figure.closing.note.${key}`)] : []);
  return {
    ...drawn,
    notes: [
      ...note(bars.length > 0, 'scale'),
      ...note(
        bars.some((bar) => isClosed(bar) && bar.widthMm),
        'covered',
      ),
      ...note(closes?.early, 'wedge'),
      ...beneathNotes(of.beneath, words),
    ],
    table: closingTable(strip, title, words),
  };
}

function isClosed({ reads }: ClosingBar): boolean {
  return reads === 'covered' || reads === 'healed';
}

/** The looks in the order in which their sizes and dates get room. */
function weighty(bars: readonly ClosingBar[]): ClosingBar[] {
  return byWeight(bars, ({ reads }) => reads !== undefined);
}

/** The edges as they have come in, and as they should meet: between the early and the late day. */
function wedge({ bars, closes }: ClosingInput, axis: TimeAxis, { y, pxPerMm }: Middle): string {
  const used = bars.flatMap(({ date, widthMm, unused }) =>
    widthMm === undefined || unused ? [] : [{ x: px(axis.x(date)), half: (widthMm * pxPerMm) / 2 }],
  );
  const edges = [1, -1].map((side) => used.map(({ x, half }) => `${x} ${px(y + side * half)}`));
  const early = closes?.early;
  const fans = edges.map((edge) => {
    if (edge.length === 0 || !early) return '';
    const late = closes.late === null ? axis.right : axis.x(closes.late);
    return path('band', `M${edge.at(-1)}L${px(axis.x(early))} ${px(y)}H${px(late)}z`);
  });
  const shape = edges.map((edge) => `M${edge.join('L')}`).join('');
  return fans.join('') + (used.length < 2 ? '' : path('outline', shape));
}

function drawLook(bar: ClosingBar, x: number, rx: number, { y, pxPerMm }: Middle, fills: TimeFills): string {
  const { widthMm, unused } = bar;
  if (!widthMm) return isClosed(bar) ? line('top', x, y - 12, x, y + 12) : '';
  const ry = (widthMm * pxPerMm) / 2;
  const shape = (look: string) =>
    `<ellipse ${look} cx="${px(x)}" cy="${px(y)}" rx="${px(rx)}" ry="${px(ry)}"/>`;
  const edge = (at: number) => `M${px(x - rx)} ${px(at)}h${px(2 * rx)}`;
  return (
    shape('class="plate"') +
    shape(`fill="${isClosed(bar) ? fills.covered : fills.open}"`) +
    shape(`class="${unused ? 'gone' : 'edge'}" fill-opacity="0"`) +
    (unused ? '' : path('top', edge(y - ry) + edge(y + ry)))
  );
}

/** Length by width over each look, and how it reads over that. */
function sizes(
  bars: readonly ClosingBar[],
  axis: TimeAxis,
  { y: middle, pxPerMm }: Middle,
  words: Words,
): WantsPlace[] {
  return weighty(bars).flatMap((bar): WantsPlace[] => {
    const x = axis.x(bar.date);
    const size = sizeInWords(bar, words);
    const reads = readsInWords(bar, words);
    const tall = (bar.widthMm ?? 4) * pxPerMm;
    const over = middle - tall / 2 - 5;
    return [
      ...(bar.widthMm || isClosed(bar) ? [] : [{ mark: 'np', x, y: middle + 4.5, text: '?', size: 13 }]),
      ...(size === '' ? [] : [{ mark: 'np', x, y: over, text: size, size: 13, orElse: tall + 20 }]),
      ...(reads === '' ? [] : [{ mark: 'w', x, y: topRoom - 12, text: reads, size: 11, orElse: -11 }]),
    ];
  });
}

function closesText(
  closes: OutRange<CalendarDay> | undefined,
  today: CalendarDay,
  axis: TimeAxis,
  y: number,
  words: Words,
): WantsPlace[] {
  if (!closes?.early || closes.late === null) return [];
  const [early, late] = [closes.early, closes.late].map((day) => dayBeside(words, day, today));
  return [
    endingAt(axis.x(closes.late), y, words.say('figure.closing.short', { early: early!, late: late! })),
  ];
}

/** Length by width; empty without a size. Such as: 22 × 16. */
function sizeInWords({ lengthMm, widthMm }: ClosingBar, words: Words): string {
  if (!widthMm) return '';
  const [length, width] = [lengthMm, widthMm].map((mm) => lengthInWords(mm, words)) as [string, string];
  return words.say(`figure.closing.${lengthMm === undefined ? 'width-only' : 'size'}`, { length, width });
}

/** How it reads, empty where it is plainly open. */
function readsInWords({ reads, widthMm }: ClosingBar, words: Words): string {
  if (reads) return words.say(`figure.closing.state.${reads}`);
  return widthMm === undefined ? words.say('figure.closing.state.no-length') : '';
}

/** The last three sizes with their days. */
function lastSizes({ bars }: ClosingInput, words: Words): string {
  if (bars.length === 0) return words.say('figure.wall.description.none');
  const said = bars.slice(-3).map((bar) =>
    words.say('figure.closing.on-day', {
      date: dayInWords(words, bar.date),
      size: words.commas([sizeInWords(bar, words), readsInWords(bar, words)]),
    }),
  );
  return said.join(' ');
}

/** Every visit, then what is expected. */
function closingTable({ bars, expected }: ClosingInput, caption: string, words: Words): Figure['table'] {
  const say = (key: string) => words.say(`figure.closing.${key}`);
  const since = daysSince([...bars, ...expected]);
  return {
    caption,
    columns: [
      say('column.date'),
      words.say('figure.wall.column.days'),
      ...['length', 'width', 'reads'].map((key) => say(`column.${key}`)),
    ],
    rows: [
      ...bars.map((bar, at) => [
        dayInWords(words, bar.date),
        since[at]!,
        lengthInWords(bar.lengthMm, words),
        lengthInWords(bar.widthMm, words),
        readsInWords(bar, words) || say('state.open'),
      ]),
      ...expected.map(({ date, lowMm, highMm }, at) => [
        dayInWords(words, date),
        since[bars.length + at]!,
        '',
        rangeInMm(lowMm, highMm, words),
        say('expected'),
      ]),
    ],
  };
}

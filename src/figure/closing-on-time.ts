import type { OutRange } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import { largest } from '../statistics/estimate.js';
import {
  type ClosingBar,
  type ClosingInput,
  closingTexts,
  readsInWords,
  sizeInWords,
} from './closing-words.js';
import type { Figure } from './figure.js';
import { line, path, px } from './svg-mark.js';
import {
  byWeight,
  dayBeside,
  type DrawingRoom,
  drawOnTime,
  endingAt,
  halfOf,
  type OnTime,
  type TimeAxis,
  type TimeFills,
  topRoom,
  type WantsPlace,
} from './time-axis.js';
import { beneathNotes } from './visit-timeline.js';

/** All that an ulcer on true time shows. */
export interface ClosingOnTime extends OnTime {
  readonly strip: ClosingInput;
}

/** A usual ulcer fills the height of a small wall; the widest is drawn smaller. */
const usualPxPerMm = 5;
const tallestPx = 130;

/**
 * One ulcer on true time: at each look its width, up and down round one middle, so that its two edges come together like
 * a wedge as it closes; length and width in figures.
 *
 * Checked: tests/figure/closing-on-time.test.ts
 */
export function closingOnTime({ strip, ...of }: ClosingOnTime, words: Words, room: DrawingRoom): Figure {
  const texts = closingTexts(strip, words);
  const { bars, closes } = strip;
  const widest = largest(
    bars.map(({ widthMm = 0 }) => widthMm),
    4,
  );
  const pxPerMm = Math.min(usualPxPerMm, tallestPx / widest);
  const middle = topRoom + (widest * pxPerMm) / 2 + 6;
  const bottom = middle + (widest * pxPerMm) / 2 + 8;
  const { svg } = drawOnTime(
    {
      ...of,
      id: `${strip.id}-${room.of}`,
      room,
      title: texts.title,
      description: texts.description,
      days: weighty(bars).map(({ date }) => date),
      until: closes?.late ?? closes?.best,
      names: [],
      bottom,
      gap: 8,
      draw: (axis, fills) => {
        const rx = halfOf(
          bars.map(({ date }) => date),
          axis,
          11,
        );
        return {
          body:
            line('divide', axis.left, middle, axis.right, middle) +
            wedge(bars, closes, axis, middle, pxPerMm) +
            bars.map((bar) => drawLook(bar, axis.x(bar.date), middle, rx, pxPerMm, fills)).join(''),
          texts: [
            ...closesText(closes, of.today, axis, bottom - 2, words),
            ...sizes(bars, axis, middle, pxPerMm, words),
          ],
        };
      },
    },
    words,
  );
  return { svg, ...texts, notes: [...texts.notes, ...beneathNotes(of.beneath, words)] };
}

/** The looks in the order in which their sizes and dates get room. */
function weighty(bars: readonly ClosingBar[]): ClosingBar[] {
  return byWeight(bars, ({ reads }) => reads !== undefined);
}

/** The edges as they have come in, and as they should meet: between the early and the late day. */
function wedge(
  bars: readonly ClosingBar[],
  closes: OutRange<CalendarDay> | undefined,
  axis: TimeAxis,
  middle: number,
  pxPerMm: number,
): string {
  const used = bars.flatMap(({ date, widthMm, unused }) =>
    widthMm === undefined || unused ? [] : [{ x: px(axis.x(date)), half: (widthMm * pxPerMm) / 2 }],
  );
  const last = used.at(-1);
  const early = closes?.early;
  const sides = ([1, -1] as const).map((sign) => {
    const edge = used.map(({ x, half }, at) => `${at === 0 ? 'M' : 'L'}${x} ${px(middle + sign * half)}`);
    if (!last || !early) return { edge: edge.join(''), fan: '' };
    const late = closes.late === null ? axis.right : axis.x(closes.late);
    const shape = `${edge.at(-1)!.replace('L', 'M')}L${px(axis.x(early))} ${px(middle)}H${px(late)}z`;
    return { edge: edge.join(''), fan: path('band', shape) };
  });
  const fans = sides.map(({ fan }) => fan).join('');
  return fans + (used.length < 2 ? '' : path('outline', sides.map(({ edge }) => edge).join('')));
}

function drawLook(
  { widthMm, reads, unused }: ClosingBar,
  x: number,
  middle: number,
  rx: number,
  pxPerMm: number,
  fills: TimeFills,
): string {
  const closed = reads === 'covered' || reads === 'healed';
  if (!widthMm) return closed ? line('top', x, middle - 12, x, middle + 12) : '';
  const ry = (widthMm * pxPerMm) / 2;
  const shape = (look: string) =>
    `<ellipse ${look} cx="${px(x)}" cy="${px(middle)}" rx="${px(rx)}" ry="${px(ry)}"/>`;
  const edge = (y: number) => `M${px(x - rx)} ${px(y)}h${px(2 * rx)}`;
  return (
    shape('class="plate"') +
    shape(`fill="${closed ? fills.covered : fills.open}"`) +
    shape(`class="${unused ? 'gone' : 'edge'}" fill-opacity="0"`) +
    (unused ? '' : path('top', edge(middle - ry) + edge(middle + ry)))
  );
}

/** Length by width over each look, and how it reads over that. */
function sizes(
  bars: readonly ClosingBar[],
  axis: TimeAxis,
  middle: number,
  pxPerMm: number,
  words: Words,
): WantsPlace[] {
  return weighty(bars).flatMap((bar): WantsPlace[] => {
    const x = axis.x(bar.date);
    const closed = bar.reads === 'covered' || bar.reads === 'healed';
    const size = sizeInWords(bar, words);
    const reads = readsInWords(bar, words);
    const tall = (bar.widthMm ?? 4) * pxPerMm;
    const over = middle - tall / 2 - 5;
    return [
      ...(bar.widthMm || closed ? [] : [{ mark: 'np', x, y: middle + 4.5, text: '?', size: 13 }]),
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
  const day = (of: CalendarDay) => dayBeside(words, of, today);
  const text = words.say('figure.closing.short', { early: day(closes.early), late: day(closes.late) });
  return [endingAt(axis.x(closes.late), y, text)];
}

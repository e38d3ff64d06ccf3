import { addDays, type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { largest, smallest } from '../statistics/estimate.js';
import type { OutRange } from '../growth/animal-growth.js';
import type { Words } from '../reference/words.js';
import { dayInShort } from '../words/number-in-words.js';
import { type ClosingBar, type ClosingStripInput, closingTexts, readsInWords } from './closing-strip.js';
import { drawing, type Figure, hatch } from './figure.js';
import { line, path, px } from './svg-mark.js';
import {
  datesHeight,
  datesUnder,
  todayMark,
  layBeneath,
  liftMark,
  placeTexts,
  type TimeAxis,
  timeAxis,
  type WantsPlace,
} from './time-axis.js';
import type { TimelineInput } from './timeline-rows.js';
import type { DrawingRoom } from './wall-on-time.js';
import { textWidth } from './wrap-text.js';

/** All that an ulcer on true time shows. */
export interface ClosingOnTime {
  readonly strip: ClosingStripInput;
  readonly beneath?: TimelineInput;
  readonly today: CalendarDay;
  readonly lift?: CalendarDay;
  /** When it should have closed. */
  readonly closes?: OutRange<CalendarDay>;
}

const topRoom = 34;
/** Half a width is drawn so many px a mm: the usual ulcer fills the height of a small wall. */
const usualPxPerMm = 5;
const tallestPx = 130;

/**
 * One ulcer on true time: at each look its width, up and down round one middle, so that its two edges come together like
 * a wedge as it closes; length and width in figures.
 *
 * Checked: tests/figure/closing-on-time.test.ts
 */
export function closingOnTime(input: ClosingOnTime, words: Words, room: DrawingRoom): Figure {
  const texts = closingTexts(input.strip, words);
  return { svg: draw(input, words, room, texts.title, texts.description), ...texts };
}

function draw(
  input: ClosingOnTime,
  words: Words,
  room: DrawingRoom,
  title: string,
  description: string,
): string {
  const { strip, today, lift, beneath, closes } = input;
  const id = `${strip.id}-${room.of}`;
  const fills = { open: hatch(id, 'open'), covered: hatch(id, 'covered') };
  const widest = largest(
    strip.bars.map(({ widthMm = 0 }) => widthMm),
    4,
  );
  const pxPerMm = Math.min(usualPxPerMm, tallestPx / widest);
  const middle = topRoom + (widest * pxPerMm) / 2 + 6;
  const bottom = middle + (widest * pxPerMm) / 2 + 8;
  const beneathY = bottom + datesHeight + 8;
  const lanes = layBeneath(beneath, words, fills.open.fill);
  const left = largest(
    lanes.names.map((name) => textWidth(name, 11) + 14),
    52,
  );
  const axis = axisOf(input, left, room.widthPx - 12);
  const rx = Math.max(3, Math.min(11, (smallest(apart(strip.bars, axis), 40) - 3) / 2));
  const { body: under, height } = lanes.draw(axis, beneathY);
  const now = todayMark(today, axis, 15, bottom, words);
  const body =
    line('divide', axis.left, middle, axis.right, middle) +
    wedge(strip.bars, closes, axis, middle, pxPerMm) +
    strip.bars
      .map((bar) => drawLook(bar, axis.x(bar.date), middle, rx, pxPerMm, fills.open.fill, fills.covered.fill))
      .join('') +
    now.line +
    liftMark(lift, axis, bottom) +
    placeTexts(
      [
        ...closesText(closes, axis, bottom - 2, words),
        ...sizes(strip.bars, axis, middle, pxPerMm, words),
        ...now.name,
        ...datesUnder(
          byWeight(strip.bars).map(({ date }) => date),
          axis,
          bottom,
          words,
          lift,
        ),
      ],
      { left: left - 6, right: room.widthPx - 2 },
    ).body +
    under;
  return drawing({
    id,
    width: room.widthPx,
    height: beneathY + height + 2,
    title,
    description,
    defs: Object.values(fills)
      .map(({ def, fill }) => (body.includes(fill) ? def : ''))
      .join(''),
    body,
  });
}

function axisOf(
  { strip, today, lift, beneath, closes }: ClosingOnTime,
  left: number,
  right: number,
): TimeAxis {
  const first = strip.bars[0]?.date ?? today;
  const last = [strip.bars.at(-1)?.date, lift, closes?.late ?? closes?.best].reduce<CalendarDay>(
    (latest, day) => (day && day > latest ? day : latest),
    beneath?.to ?? today,
  );
  const days = Math.max(21, daysBetween(first, last));
  return timeAxis(
    addDays(first, -Math.round(days * 0.06) - 3),
    addDays(last, Math.round(days * 0.06) + 3),
    left,
    right,
  );
}

function apart(bars: readonly ClosingBar[], axis: TimeAxis): number[] {
  return bars.slice(1).map((bar, at) => axis.x(bar.date) - axis.x(bars[at]!.date));
}

/** The edges as they have come in, and as they should meet: between the early and the late day. */
function wedge(
  bars: readonly ClosingBar[],
  closes: OutRange<CalendarDay> | undefined,
  axis: TimeAxis,
  middle: number,
  pxPerMm: number,
): string {
  const used = bars.filter(({ widthMm, unused }) => widthMm !== undefined && !unused);
  const edge = (sign: 1 | -1) =>
    used
      .map(
        ({ date, widthMm }, at) =>
          `${at === 0 ? 'M' : 'L'}${px(axis.x(date))} ${px(middle + (sign * widthMm! * pxPerMm) / 2)}`,
      )
      .join('');
  const last = used.at(-1);
  const early = closes?.early;
  const fan =
    last?.widthMm === undefined || !early
      ? ''
      : [1, -1]
          .map((sign) => {
            const y = middle + (sign * last.widthMm! * pxPerMm) / 2;
            const late = closes.late === null ? axis.right : axis.x(closes.late);
            return path(
              'band',
              `M${px(axis.x(last.date))} ${px(y)}L${px(axis.x(early))} ${px(middle)}H${px(late)}z`,
            );
          })
          .join('');
  return fan + (used.length < 2 ? '' : path('outline', edge(1) + edge(-1)));
}

function drawLook(
  { widthMm, reads, unused }: ClosingBar,
  x: number,
  middle: number,
  rx: number,
  pxPerMm: number,
  open: string,
  covered: string,
): string {
  const closed = reads === 'covered' || reads === 'healed';
  if (!widthMm) return closed ? line('top', x, middle - 12, x, middle + 12) : '';
  const ry = (widthMm * pxPerMm) / 2;
  const shape = (look: string) =>
    `<ellipse ${look} cx="${px(x)}" cy="${px(middle)}" rx="${px(rx)}" ry="${px(ry)}"/>`;
  return (
    shape('class="plate"') +
    shape(`fill="${closed ? covered : open}"`) +
    shape(`class="${unused ? 'gone' : 'edge'}" fill-opacity="0"`) +
    (unused
      ? ''
      : path(
          'top',
          `M${px(x - rx)} ${px(middle - ry)}h${px(2 * rx)}M${px(x - rx)} ${px(middle + ry)}h${px(2 * rx)}`,
        ))
  );
}

function byWeight(bars: readonly ClosingBar[]): ClosingBar[] {
  const weight = (bar: ClosingBar, at: number): number =>
    at === bars.length - 1 ? 0 : bar.reads === undefined ? (at === 0 ? 2 : 3 + bars.length - at) : 1;
  return bars
    .map((bar, at) => ({ bar, weight: weight(bar, at) }))
    .toSorted((a, b) => a.weight - b.weight)
    .map(({ bar }) => bar);
}

/** Length by width over each look, and how it reads over that. */
function sizes(
  bars: readonly ClosingBar[],
  axis: TimeAxis,
  middle: number,
  pxPerMm: number,
  words: Words,
): WantsPlace[] {
  return byWeight(bars).flatMap((bar): WantsPlace[] => {
    const x = axis.x(bar.date);
    const y = middle - ((bar.widthMm ?? 4) * pxPerMm) / 2 - 5;
    const size = closingSize(bar, words);
    const reads = readsInWords(bar, words);
    return [
      ...(bar.widthMm || bar.reads === 'covered' || bar.reads === 'healed'
        ? []
        : [{ mark: 'np', x, y: middle + 4.5, text: '?', size: 13 }]),
      ...(size === '' ? [] : [{ mark: 'np', x, y, text: size, size: 13 }]),
      ...(reads === '' ? [] : [{ mark: 'w', x, y: topRoom - 12, text: reads, size: 11, orElse: -11 }]),
    ];
  });
}

function closingSize({ lengthMm, widthMm }: ClosingBar, words: Words): string {
  if (!widthMm) return '';
  return lengthMm === undefined
    ? words.number(px(widthMm))
    : words.say('figure.closing.size', {
        length: words.number(px(lengthMm)),
        width: words.number(px(widthMm)),
      });
}

function closesText(
  closes: OutRange<CalendarDay> | undefined,
  axis: TimeAxis,
  y: number,
  words: Words,
): WantsPlace[] {
  if (!closes?.early || closes.late === null) return [];
  const text = words.say('figure.closing.short', {
    early: dayInShort(words, closes.early),
    late: dayInShort(words, closes.late),
  });
  return [{ mark: 'k', x: axis.x(closes.late) - textWidth(text, 11, 'bold') / 2, y, text, size: 11 }];
}

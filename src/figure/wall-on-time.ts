import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { Words } from '../reference/words.js';
import { largest } from '../statistics/estimate.js';
import type { HeldStretch, WallBar, WallStripInput } from './wall-strip-input.js';
import type { Figure } from './figure.js';
import { label, line, path, px, rect } from './svg-mark.js';
import {
  byWeight,
  datesHeight,
  dayBeside,
  type DrawingRoom,
  drawOnTime,
  endingAt,
  halfOf,
  lengthInWords,
  type OnTime,
  type TimeAxis,
  type TimeFills,
  topRoom,
  type WantsPlace,
} from './time-axis.js';
import { beneathNotes } from './visit-timeline.js';
import {
  monthsInWords,
  wallStripDescription,
  wallStripNotes,
  wallStripTable,
  wallStripTitle,
} from './wall-strip-words.js';

/** All that the wall on true time shows. */
export interface WallOnTime extends OnTime {
  readonly strip: WallStripInput;
  /** How fast her horn slides down on this line, about. */
  readonly mmPerMonth: number;
}

/** CSS pixels of a millimetre, by the definition of CSS. */
const pxOfMm = 96 / 25.4;
/** Millimetres of paper a millimetre of wall. */
const scales = [1, 0.8, 0.6, 0.5] as const;
const daysOfMonth = growthNumbers.month.value;

/** The largest scale at which a wall fits. @example scaleOf(60, 200) // → 0.8 */
export function scaleOf(wallMm: number, tallestPx: number): number {
  return scales.find((scale) => wallMm * scale * pxOfMm <= tallestPx) ?? tallestPx / (wallMm * pxOfMm);
}

/** Where things lie: across by day, down by mm, and half the width of a bar. */
interface Frame {
  readonly axis: TimeAxis;
  readonly groundY: number;
  readonly y: (mm: number) => number;
  readonly half: number;
}

/**
 * One gap on true time: days to scale across, the wall to scale down, so that horn that slides down is a slant and a
 * top that does not move is level.
 *
 * Checked: tests/figure/wall-on-time.test.ts
 */
export function wallOnTime(
  { strip, mmPerMonth, ...of }: WallOnTime,
  words: Words,
  room: DrawingRoom,
): Figure {
  const title = wallStripTitle(strip, words);
  const { wall, held } = strip;
  const bars = latestBars(strip.bars, of.today);
  const scale = scaleOf(longestOf(strip.bars, wall.mm), room.tallestPx);
  const longest = longestOf(bars, wall.mm);
  const pxPerMm = scaleOf(longest, room.tallestPx) * pxOfMm;
  const y = (mm: number): number => topRoom + Math.max(0, mm) * pxPerMm;
  const [groundY, bottom] = [y(wall.mm), y(longest)];
  const names = ['coronet', 'ground'].map((key) => words.say(`figure.axis.${key}`));
  const outlook = outInShort(strip, of.today, words);
  const days = bars.map(({ date }) => date);
  const { leftOut, ...drawn } = drawOnTime(
    {
      ...of,
      id: `${strip.id}-${room.of}`,
      room,
      title,
      description: wallStripDescription(strip, words),
      days: weighty(bars).map(({ date }) => date),
      until: strip.out?.late ?? strip.out?.best,
      names,
      bottom,
      gap: outlook === '' ? 4 : 16,
      draw: (axis, fills) => {
        const frame = { axis, groundY, y, half: halfOf(days, axis, 13) };
        const edges = [topRoom, groundY].map((at, edge) => ({
          line: line(edge === 0 ? 'top' : 'thin', axis.left - 6, at, axis.right, at),
          name: label('s', axis.left - 8, at + 4, names[edge]!, 'end'),
        }));
        return {
          body:
            slides(wall.mm, mmPerMonth, frame) +
            fan({ ...strip, bars }, frame) +
            bars.map((bar) => drawBar(bar, frame, fills)).join('') +
            tops(bars, frame) +
            edges.map((one) => one.line).join('') +
            edges.map((one) => one.name).join('') +
            runUps(bars, frame) +
            heldBrackets(held, frame),
          texts: [
            ...outText(outlook, strip, axis, bottom + datesHeight + 8),
            ...notes(bars, held, axis, words),
            ...numbers(bars, frame, words),
          ],
        };
      },
    },
    words,
  );
  const note = (key: string, values = {}) => words.say(`figure.wall.note.${key}`, values);
  const earlier = strip.bars.length - bars.length;
  const unnumbered = leftOut.filter(({ mark }) => mark === 'np').length;
  return {
    ...drawn,
    notes: [
      ...wallStripNotes(strip, Math.round(mmPerMonth * 10) / 10, words),
      ...(earlier === 0 ? [] : [note('left-out', { count: earlier })]),
      ...(unnumbered === 0 ? [] : [note('no-room', { count: unnumbered })]),
      ...beneathNotes(of.beneath, words),
      ...(bars.length === 0
        ? []
        : [scale === 1 ? note('life-size') : note('smaller', { scale: Math.round(scale * 100) / 100 })]),
    ],
    table: wallStripTable(strip, title, words),
  };
}

/** So far back a drawing shows bars that can be distinguished. */
const daysBack = 540;
const leastBars = 6;

/** All bars of the last year and a half, and at least six: older ones are in the table. */
function latestBars(bars: readonly WallBar[], today: CalendarDay): readonly WallBar[] {
  const end = bars.at(-1)?.date ?? today;
  const from = bars.findIndex(({ date }) => daysBetween(date, end) <= daysBack);
  return bars.slice(Math.max(0, Math.min(from, bars.length - leastBars)));
}

function longestOf(bars: readonly WallBar[], wallMm: number): number {
  return largest([wallMm, ...bars.map((bar) => bar.wallMm)]);
}

/** The bars in the order in which their numbers and dates get room. */
function weighty(bars: readonly WallBar[]): WallBar[] {
  return byWeight(bars, ({ kind, state }) => kind === 'ran-up' || state === 'healed');
}

/** Thin slants: where horn made at the coronet on a day comes to lie as she grows. */
function slides(wallMm: number, mmPerMonth: number, { axis, y }: Frame): string {
  const wallDays = (wallMm / mmPerMonth) * daysOfMonth;
  const all = daysBetween(axis.first, axis.last);
  const step = Math.max(30, (all + wallDays) / 24);
  let shape = '';
  for (let start = -wallDays; start < all; start += step) {
    const from = Math.max(start, 0);
    const to = Math.min(start + wallDays, all);
    if (to <= from) continue;
    const at = (day: number): string => {
      const x = axis.left + ((axis.right - axis.left) * day) / all;
      return `${px(x)} ${px(y(((day - start) / daysOfMonth) * mmPerMonth))}`;
    };
    shape += `M${at(from)}L${at(to)}`;
  }
  return path('rule', shape);
}

/** From the last reading to the days between which the gap should be out. */
function fan({ bars, out, ifSoundHornFollows }: WallStripInput, { axis, groundY, y }: Frame): string {
  const last = bars.findLast(({ topMm, unused }) => topMm !== undefined && !unused);
  if (!out?.early || last?.topMm === undefined) return '';
  const from = `M${px(axis.x(last.date))} ${px(y(last.topMm))}`;
  const early = px(axis.x(out.early));
  const late = px(out.late === null ? axis.right : axis.x(out.late));
  const best = out.best === null || ifSoundHornFollows ? undefined : px(axis.x(out.best));
  return (
    path('band', `${from}L${early} ${px(groundY)}H${late}z`) +
    (best === undefined ? '' : path('unsure', `${from}L${best} ${px(groundY)}`)) +
    path('thin', `M${early} ${px(groundY + 2)}v4H${late}${out.late === null ? '' : 'v-4'}`)
  );
}

function drawBar(bar: WallBar, { axis, y, half }: Frame, fills: TimeFills): string {
  const x = axis.x(bar.date);
  const [left, width] = [x - half, 2 * half];
  const ground = y(bar.wallMm);
  const part = (mark: string, from: number, to: number, fill?: string) =>
    rect(mark, left, from, width, to - from, fill);
  const foot = bar.lowered ? sawTeeth(left, width, ground) : '';
  if (bar.state === 'healed') return part('wall', topRoom, ground) + foot;
  if (bar.kind === 'not-reached')
    return part('wall', topRoom, ground) + notReached(x, half, ground, fills) + foot;
  if (bar.topMm === undefined) return part('gone', topRoom, ground) + foot;
  const top = Math.min(y(bar.topMm), ground);
  // Loose wall still stands down to where it was taken off; where none was, down to the ground.
  const bare = bar.bareFromMm === undefined ? ground : Math.min(ground, Math.max(top, y(bar.bareFromMm)));
  const isUnsure = bar.unused || bar.kind === 'doubtful';
  return (
    part(bar.unused ? 'pale' : 'wall', topRoom, top) +
    part('gone', bare, ground) +
    part('', top, ground, bar.state === 'covered' ? fills.covered : fills.open) +
    part('edge', top, bare) +
    line(isUnsure ? 'unsure' : 'top', left - 3, top, left + width + 3, top) +
    foot
  );
}

/** The gap goes on up under standing wall: hatched to where it was seen, and an arrow into the unknown. */
function notReached(x: number, half: number, ground: number, fills: TimeFills): string {
  const tall = ground - topRoom;
  const [from, tip] = [ground - tall * 0.4, topRoom + tall * 0.35];
  return (
    rect('', x - half + 2, from, 2 * half - 4, ground - from, fills.open) +
    path('top', `M${px(x)} ${px(from)}V${px(tip)}m-4 5l4-5l4 5`)
  );
}

/** Two teeth under a wall that had been lowered. */
function sawTeeth(left: number, width: number, ground: number): string {
  const [step, y] = [px(width / 4), px(ground + 3)];
  return path('thin', `M${px(left)} ${y}l${step}-4l${step} 4l${step}-4l${step} 4`);
}

/** The way the top has gone, from used reading to used reading; broken where it ran up. */
function tops(bars: readonly WallBar[], { axis, y }: Frame): string {
  const used = bars.flatMap(({ date, topMm, unused, kind }) =>
    topMm === undefined || unused || kind === 'not-reached' ? [] : [{ date, topMm, kind }],
  );
  const shape = used.map(({ date, topMm, kind }, at) => {
    const start = at === 0 || kind === 'ran-up' ? 'M' : 'L';
    return `${start}${px(axis.x(date))} ${px(y(topMm))}`;
  });
  return used.length < 2 ? '' : path('outline', shape.join(''));
}

/** Left of a bar whose top was found higher: from where growth would have brought it, else from the reading before. */
function runUps(bars: readonly WallBar[], { axis, y, groundY, half }: Frame): string {
  const arrows = bars.map(({ date, kind, topMm, ranUpMm }, at) => {
    if (kind !== 'ran-up' || topMm === undefined) return '';
    const fromMm = ranUpMm === undefined ? bars[at - 1]?.topMm : topMm + ranUpMm;
    if (fromMm === undefined) return '';
    const [tip, tail] = [y(topMm), Math.min(y(fromMm), groundY)];
    if (tail - tip < 8) return '';
    return path('up', `M${px(axis.x(date) - half - 7)} ${px(tail)}V${px(tip + 1)}m-4 6l4-6l4 6`);
  });
  return arrows.join('');
}

function heldBrackets(held: readonly HeldStretch[], { axis, half }: Frame): string {
  return held
    .filter(({ to }) => to >= axis.first)
    .map(({ from, to }) => {
      const start = Math.max(axis.left, axis.x(from) - half);
      return path('up', `M${px(start)} ${topRoom - 4}v-6H${px(axis.x(to) + half)}v6`);
    })
    .join('');
}

/** In the wall above its line where there is room, else just beneath it. */
function numbers(bars: readonly WallBar[], { axis, y, groundY }: Frame, words: Words): WantsPlace[] {
  return weighty(bars).flatMap(({ date, state, topMm, wallMm, kind, unused }): WantsPlace[] => {
    if (state === 'healed') return [];
    const number = { mark: 'np', x: axis.x(date), size: 13 };
    if (topMm === undefined || kind === 'not-reached')
      return [{ ...number, y: topRoom + (groundY - topRoom) * 0.3, text: '?' }];
    const mm = lengthInWords(topMm, words);
    const way = kind === 'doubtful' ? 'doubtful' : unused ? 'unused' : undefined;
    const text = way ? words.say(`figure.wall.number.${way}`, { mm }) : mm;
    const top = Math.min(y(topMm), y(wallMm));
    return [
      top - topRoom >= 18
        ? { ...number, y: top - 5, text, orElse: 20.5 }
        : { ...number, y: top + 15.5, text },
    ];
  });
}

/** What is written over a bar, in the colour of what is open; nothing where it simply grew. */
function notes(
  bars: readonly WallBar[],
  held: readonly HeldStretch[],
  axis: TimeAxis,
  words: Words,
): WantsPlace[] {
  const over = (x: number, text: string): WantsPlace[] =>
    text === '' ? [] : [{ mark: 'w', x, y: topRoom - 12, text, size: 11, orElse: -11 }];
  return [
    ...weighty(bars).flatMap((bar) => over(axis.x(bar.date), barInWords(bar, words))),
    ...held
      .filter(({ to }) => to >= axis.first)
      .flatMap(({ from, to }) =>
        over((Math.max(axis.left, axis.x(from)) + axis.x(to)) / 2, words.say('figure.wall.bar.held')),
      ),
  ];
}

function barInWords(bar: WallBar, words: Words): string {
  const say = (key: string, values = {}) => words.say(`figure.wall.bar.${key}`, values);
  const { kind, state, ranUpMm, lostMonths } = bar;
  const isRead = kind !== undefined && !['first', 'grew', 'held', 'ran-up'].includes(kind);
  return words.commas([
    kind === 'ran-up' &&
      (ranUpMm === undefined ? say('ran-up') : say('ran-up-mm', { mm: Math.round(ranUpMm) })),
    kind === 'ran-up' && lostMonths !== undefined && monthsInWords(lostMonths, words),
    isRead && say(kind),
    kind === undefined && (state === 'open' || state === undefined) && say('no-length'),
    (state === 'covered' || state === 'healed' || state === 'lasting') && say(state),
    bar.joined !== undefined && say('joined', { lesion: bar.joined }),
    bar.lowered && say('lowered'),
  ]);
}

/** The date with its range in a few words, or why there is none. */
function outInShort(
  { out, noForecast, ifSoundHornFollows }: WallStripInput,
  today: CalendarDay,
  words: Words,
): string {
  if (noForecast) return noForecast === 'healed' ? '' : words.say(`figure.wall.no-date.${noForecast}`);
  if (!out?.early) return '';
  const day = (of: CalendarDay) => dayBeside(words, of, today);
  const way = `${ifSoundHornFollows ? 'if' : 'out'}${out.late === null ? '-open' : ''}`;
  const range = { early: day(out.early), late: out.late === null ? '' : day(out.late) };
  return words.dots([
    words.say(`figure.wall.short.${way}`, range),
    !ifSoundHornFollows &&
      out.best !== null &&
      words.say('figure.wall.short.likely', { best: day(out.best) }),
  ]);
}

function outText(text: string, { out }: WallStripInput, axis: TimeAxis, y: number): WantsPlace[] {
  if (text === '') return [];
  return [endingAt(out?.late ? Math.min(axis.x(out.late), axis.right) : axis.right, y, text)];
}

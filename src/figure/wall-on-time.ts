import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import type { Words } from '../reference/words.js';
import { largest } from '../statistics/estimate.js';
import type { HeldStretch, WallBar, WallStripInput } from './drawn-wall.js';
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

/** Where things lie up and down. */
interface Depth {
  readonly groundY: number;
  readonly y: (mm: number) => number;
}

/**
 * One gap on true time: days to scale across, the wall to scale down, so that horn that slides down is a slant and a
 * top that stands still is level.
 *
 * Checked: tests/figure/wall-on-time.test.ts
 */
export function wallOnTime(input: WallOnTime, words: Words, room: DrawingRoom): Figure {
  const { strip } = input;
  const title = wallStripTitle(strip, words);
  const description = wallStripDescription(strip, words);
  const bars = latestBars(strip.bars, input.today);
  const { svg, leftOut } = draw({ ...input, strip: { ...strip, bars } }, words, room, title, description);
  const note = (key: string, values = {}) => words.say(`figure.wall.note.${key}`, values);
  const earlier = strip.bars.length - bars.length;
  const unnumbered = leftOut.filter(({ mark }) => mark === 'np').length;
  const scale = scaleOf(longestOf(strip), room.tallestPx);
  return {
    svg,
    title,
    description,
    notes: [
      ...wallStripNotes(strip, Math.round(input.mmPerMonth * 10) / 10, words),
      ...(earlier === 0 ? [] : [note('left-out', { count: earlier })]),
      ...(unnumbered === 0 ? [] : [note('no-room', { count: unnumbered })]),
      ...beneathNotes(input.beneath, words),
      ...(bars.length === 0
        ? []
        : [scale === 1 ? note('life-size') : note('smaller', { scale: Math.round(scale * 100) / 100 })]),
    ],
    table: wallStripTable(strip, title, words),
  };
}

/** So far back a drawing shows bars that can be told apart. */
const daysBack = 540;
const leastBars = 6;

/** All bars of the last year and a half, and at least six: older ones stand in the table. */
function latestBars(bars: readonly WallBar[], today: CalendarDay): readonly WallBar[] {
  const end = bars.at(-1)?.date ?? today;
  const from = bars.findIndex(({ date }) => daysBetween(date, end) <= daysBack);
  return bars.slice(Math.max(0, Math.min(from, bars.length - leastBars)));
}

function longestOf({ bars, wall }: WallStripInput): number {
  return largest(
    bars.map(({ wallMm }) => wallMm),
    wall.mm,
  );
}

function draw(
  { strip, mmPerMonth, ...of }: WallOnTime,
  words: Words,
  room: DrawingRoom,
  title: string,
  description: string,
) {
  const longest = longestOf(strip);
  const pxPerMm = scaleOf(longest, room.tallestPx) * pxOfMm;
  const y = (mm: number): number => topRoom + Math.max(0, mm) * pxPerMm;
  const depth: Depth = { groundY: y(strip.wall.mm), y };
  const [coronet, ground] = ['coronet', 'ground'].map((key) => words.say(`figure.axis.${key}`)) as [
    string,
    string,
  ];
  const outlook = outInShort(strip, of.today, words);
  const bottom = y(longest);
  return drawOnTime(
    {
      ...of,
      id: `${strip.id}-${room.of}`,
      room,
      title,
      description,
      days: weighty(strip.bars).map(({ date }) => date),
      until: strip.out?.late ?? strip.out?.best,
      names: [coronet, ground],
      bottom,
      gap: outlook === '' ? 4 : 16,
      draw: (axis, fills) => {
        const half = halfOf(
          strip.bars.map(({ date }) => date),
          axis,
          13,
        );
        return {
          body:
            slides(strip.wall.mm, mmPerMonth, axis, depth) +
            fan(strip, axis, depth) +
            strip.bars.map((bar) => drawBar(bar, axis.x(bar.date), half, depth, fills)).join('') +
            tops(strip.bars, axis, depth) +
            line('top', axis.left - 6, topRoom, axis.right, topRoom) +
            line('thin', axis.left - 6, depth.groundY, axis.right, depth.groundY) +
            label('s', axis.left - 8, topRoom + 4, coronet, 'end') +
            label('s', axis.left - 8, depth.groundY + 4, ground, 'end') +
            runUps(strip.bars, axis, depth, half) +
            heldBrackets(strip.held, axis, half),
          texts: [
            ...outText(outlook, strip, axis, bottom + datesHeight + 8),
            ...notes(strip, axis, words),
            ...numbers(strip.bars, axis, depth, words),
          ],
        };
      },
    },
    words,
  );
}

/** The bars in the order in which their numbers and dates get room. */
function weighty(bars: readonly WallBar[]): WallBar[] {
  return byWeight(bars, ({ kind, state }) => kind === 'ran-up' || state === 'healed');
}

/** Thin slants: where horn made at the coronet on a day comes to lie as she grows. */
function slides(wallMm: number, mmPerMonth: number, axis: TimeAxis, depth: Depth): string {
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
      return `${px(x)} ${px(depth.y(((day - start) / daysOfMonth) * mmPerMonth))}`;
    };
    shape += `M${at(from)}L${at(to)}`;
  }
  return path('rule', shape);
}

/** From the last reading to the days between which the gap should be out. */
function fan({ bars, out, ifSoundHornFollows }: WallStripInput, axis: TimeAxis, depth: Depth): string {
  const last = bars.findLast(({ topMm, unused }) => topMm !== undefined && !unused);
  if (!out?.early || last?.topMm === undefined) return '';
  const [x, y] = [axis.x(last.date), depth.y(last.topMm)];
  const early = axis.x(out.early);
  const late = out.late === null ? axis.right : axis.x(out.late);
  const ground = depth.groundY;
  const best =
    out.best === null || ifSoundHornFollows
      ? ''
      : path('unsure', `M${px(x)} ${px(y)}L${px(axis.x(out.best))} ${px(ground)}`);
  const open = out.late === null ? '' : 'v-4';
  return (
    path('band', `M${px(x)} ${px(y)}L${px(early)} ${px(ground)}H${px(late)}z`) +
    best +
    path('thin', `M${px(early)} ${px(ground + 2)}v4H${px(late)}${open}`)
  );
}

function drawBar(bar: WallBar, x: number, half: number, depth: Depth, fills: TimeFills): string {
  const [left, width] = [x - half, 2 * half];
  const ground = depth.y(bar.wallMm);
  const full = (mark: string) => rect(mark, left, topRoom, width, ground - topRoom);
  const foot = bar.lowered ? sawTeeth(left, width, ground) : '';
  if (bar.state === 'healed') return full('wall') + foot;
  if (bar.kind === 'not-reached') return full('wall') + notReached(x, half, ground, fills) + foot;
  if (bar.topMm === undefined) return full('gone') + foot;
  const top = Math.min(depth.y(bar.topMm), ground);
  // Loose wall still stands down to where it was taken off; where none was, down to the ground.
  const bare =
    bar.bareFromMm === undefined ? ground : Math.min(ground, Math.max(top, depth.y(bar.bareFromMm)));
  return (
    rect(bar.unused ? 'pale' : 'wall', left, topRoom, width, top - topRoom) +
    rect('gone', left, bare, width, ground - bare) +
    rect('', left, top, width, ground - top, bar.state === 'covered' ? fills.covered : fills.open) +
    rect('edge', left, top, width, bare - top) +
    line(bar.unused || bar.kind === 'doubtful' ? 'unsure' : 'top', left - 3, top, left + width + 3, top) +
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
function tops(bars: readonly WallBar[], axis: TimeAxis, depth: Depth): string {
  const used = bars.filter(
    ({ topMm, unused, kind }) => topMm !== undefined && !unused && kind !== 'not-reached',
  );
  const shape = used
    .map(
      (bar, at) =>
        `${at === 0 || bar.kind === 'ran-up' ? 'M' : 'L'}${px(axis.x(bar.date))} ${px(depth.y(bar.topMm!))}`,
    )
    .join('');
  return used.length < 2 ? '' : path('outline', shape);
}

/** Left of a bar whose top was found higher: from where growth would have brought it, else from the reading before. */
function runUps(bars: readonly WallBar[], axis: TimeAxis, depth: Depth, half: number): string {
  return bars
    .flatMap((bar, at) => {
      if (bar.kind !== 'ran-up' || bar.topMm === undefined) return [];
      const fromMm = bar.ranUpMm === undefined ? bars[at - 1]?.topMm : bar.topMm + bar.ranUpMm;
      if (fromMm === undefined) return [];
      const x = axis.x(bar.date) - half - 7;
      const [tip, tail] = [depth.y(bar.topMm), Math.min(depth.y(fromMm), depth.groundY)];
      return tail - tip < 8 ? [] : path('up', `M${px(x)} ${px(tail)}V${px(tip + 1)}m-4 6l4-6l4 6`);
    })
    .join('');
}

function heldBrackets(held: readonly HeldStretch[], axis: TimeAxis, half: number): string {
  return held
    .filter(({ to }) => to >= axis.first)
    .map(({ from, to }) => {
      const start = Math.max(axis.left, axis.x(from) - half);
      return path('up', `M${px(start)} ${topRoom - 4}v-6H${px(axis.x(to) + half)}v6`);
    })
    .join('');
}

/** In the wall above its line where there is room, else just beneath it. */
function numbers(bars: readonly WallBar[], axis: TimeAxis, depth: Depth, words: Words): WantsPlace[] {
  return weighty(bars).flatMap((bar): WantsPlace[] => {
    const x = axis.x(bar.date);
    if (bar.state === 'healed') return [];
    if (bar.topMm === undefined || bar.kind === 'not-reached')
      return [{ mark: 'np', x, y: topRoom + (depth.groundY - topRoom) * 0.3, text: '?', size: 13 }];
    const mm = words.number(px(bar.topMm));
    const way = bar.kind === 'doubtful' ? 'doubtful' : bar.unused ? 'unused' : undefined;
    const text = way ? words.say(`figure.wall.number.${way}`, { mm }) : mm;
    const y = Math.min(depth.y(bar.topMm), depth.y(bar.wallMm));
    const above = y - topRoom >= 18;
    return [
      { mark: 'np', x, y: above ? y - 5 : y + 15.5, text, size: 13, ...(above ? { orElse: 20.5 } : {}) },
    ];
  });
}

/** What is written over a bar, in the colour of what is open; nothing where it simply grew. */
function notes({ bars, held }: WallStripInput, axis: TimeAxis, words: Words): WantsPlace[] {
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

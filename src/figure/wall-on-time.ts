import { addDays, type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import { largest, smallest } from '../statistics/estimate.js';
import { dayInShort } from '../words/number-in-words.js';
import type { HeldStretch, WallBar, WallStripInput } from './drawn-wall.js';
import { drawing, type Figure, hatch } from './figure.js';
import { label, line, path, px, rect } from './svg-mark.js';
import {
  datesUnder,
  liftMark,
  datesHeight,
  todayMark,
  layBeneath,
  placeTexts,
  type TimeAxis,
  timeAxis,
  type WantsPlace,
} from './time-axis.js';
import type { TimelineInput } from './timeline-rows.js';
import {
  monthsInWords,
  wallStripDescription,
  wallStripNotes,
  wallStripTable,
  wallStripTitle,
} from './wall-strip-words.js';
import { textWidth } from './wrap-text.js';

/** All that the wall on true time shows. */
export interface WallOnTime {
  readonly strip: WallStripInput;
  /** Walk, block, wrap, vet and withheld days, drawn beneath on the same days. */
  readonly beneath?: TimelineInput;
  readonly today: CalendarDay;
  /** Day of the next lift. */
  readonly lift?: CalendarDay;
  /** How fast her horn slides down on this line, about. */
  readonly mmPerMonth: number;
}

/** The room a drawing has. */
export interface DrawingRoom {
  readonly widthPx: number;
  /** For the wall alone. */
  readonly tallestPx: number;
  /** Tells the drawings of one figure apart: paper and phone. */
  readonly of: 'paper' | 'phone';
}

/** CSS pixels of a millimetre, by the definition of CSS. */
const pxOfMm = 96 / 25.4;
/** Millimetres of paper a millimetre of wall. */
const scales = [1, 0.8, 0.6, 0.5] as const;
const daysOfMonth = 30.4375;

/** The largest scale at which a wall fits. @example scaleOf(60, 200) // → 0.8 */
export function scaleOf(wallMm: number, tallestPx: number): number {
  return scales.find((scale) => wallMm * scale * pxOfMm <= tallestPx) ?? tallestPx / (wallMm * pxOfMm);
}

/** Where things lie up and down. */
interface Depth {
  readonly coronetY: number;
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
  const scale = scaleOf(longestOf(strip), room.tallestPx);
  return {
    svg: draw({ ...input, strip: { ...strip, bars } }, words, room, title, description),
    title,
    description,
    notes: [
      ...wallStripNotes(strip, Math.round(input.mmPerMonth * 10) / 10, words),
      ...leftOutNote(strip.bars.length - bars.length, words),
      ...(strip.bars.length === 0 ? [] : [scaleNote(scale, words)]),
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

function leftOutNote(count: number, words: Words): string[] {
  return count === 0 ? [] : [words.say('figure.wall.note.left-out', { count })];
}

function scaleNote(scale: number, words: Words): string {
  return scale === 1
    ? words.say('figure.wall.note.life-size')
    : words.say('figure.wall.note.smaller', { scale: Math.round(scale * 100) / 100 });
}

function longestOf({ bars, wall }: WallStripInput): number {
  return largest(
    bars.map(({ wallMm }) => wallMm),
    wall.mm,
  );
}

const topRoom = 34;
/** Room for the names at the left, at least. */
const usualLeft = 52;

function draw(
  input: WallOnTime,
  words: Words,
  room: DrawingRoom,
  title: string,
  description: string,
): string {
  const { strip, today, lift, beneath } = input;
  const id = `${strip.id}-${room.of}`;
  const fills = { open: hatch(id, 'open'), covered: hatch(id, 'covered') };
  const longest = longestOf(strip);
  const pxPerMm = scaleOf(longest, room.tallestPx) * pxOfMm;
  const coronetY = topRoom;
  const depth: Depth = {
    coronetY,
    groundY: coronetY + strip.wall.mm * pxPerMm,
    y: (mm) => coronetY + Math.max(0, mm) * pxPerMm,
  };
  const outlook = outInShort(strip, words);
  const lanes = layBeneath(beneath, words, fills.open.fill);
  const names = [words.say('figure.axis.coronet'), words.say('figure.axis.ground'), ...lanes.names];
  const left = largest(
    names.map((name) => textWidth(name, 11) + 14),
    usualLeft,
  );
  const axis = axisOf(input, left, room.widthPx - 12);
  const half = halfBar(strip.bars, axis);
  const lowest = Math.max(depth.groundY, depth.y(longest));
  const beneathY = lowest + datesHeight + (outlook.length > 0 ? 16 : 4);
  const { body: under, height } = lanes.draw(axis, beneathY);
  const now = todayMark(today, axis, 15, lowest, words);
  const body =
    slides(input, axis, depth) +
    fan(strip, axis, depth) +
    strip.bars
      .map((bar) => drawBar(bar, axis.x(bar.date), half, depth, fills.open.fill, fills.covered.fill))
      .join('') +
    tops(strip.bars, axis, depth) +
    line('top', axis.left - 6, coronetY, axis.right, coronetY) +
    line('thin', axis.left - 6, depth.groundY, axis.right, depth.groundY) +
    label('s', left - 8, coronetY + 4, words.say('figure.axis.coronet'), 'end') +
    label('s', left - 8, depth.groundY + 4, words.say('figure.axis.ground'), 'end') +
    runUps(strip.bars, axis, depth, half) +
    heldBrackets(strip.held, axis, half) +
    now.line +
    liftMark(lift, axis, lowest) +
    placeTexts(
      [
        ...outText(outlook, strip, axis, lowest + datesHeight + 8, words),
        ...notes(strip, axis, words),
        ...numbers(strip.bars, axis, depth, words),
        ...now.name,
        ...datesUnder(
          byWeight(strip.bars).map(({ date }) => date),
          axis,
          lowest,
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

/** From the first reading to the last day anything is said of; of a closed case to its end. */
function axisOf({ strip, today, lift, beneath }: WallOnTime, left: number, right: number): TimeAxis {
  const first = strip.bars[0]?.date ?? today;
  const seenTo = beneath?.to ?? today;
  const out = strip.out?.late ?? strip.out?.best;
  const last = [strip.bars.at(-1)?.date, lift, out].reduce<CalendarDay>(
    (latest, day) => (day && day > latest ? day : latest),
    seenTo,
  );
  const days = daysBetween(first, last);
  return timeAxis(
    addDays(first, -Math.round(days * 0.04) - 3),
    addDays(last, Math.round(days * 0.04) + 3),
    left,
    right,
  );
}

/** Half the width of a bar, px: bars of two near days must not cover each other. */
function halfBar(bars: readonly WallBar[], axis: TimeAxis): number {
  const apart = bars.slice(1).map((bar, at) => axis.x(bar.date) - axis.x(bars[at]!.date));
  return Math.max(3, Math.min(13, (smallest(apart, 40) - 3) / 2));
}

/** Thin slants: where horn made at the coronet on a day comes to lie as she grows. */
function slides({ mmPerMonth, strip }: WallOnTime, axis: TimeAxis, depth: Depth): string {
  const wallDays = (strip.wall.mm / mmPerMonth) * daysOfMonth;
  const all = daysBetween(axis.first, axis.last);
  let shape = '';
  const step = Math.max(30, (all + wallDays) / 24);
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
  const open = out.late === null ? '' : `M${px(late)} ${px(ground + 4)}v6`;
  return (
    path('band', `M${px(x)} ${px(y)}L${px(early)} ${px(ground)}H${px(late)}z`) +
    best +
    path('thin', `M${px(early)} ${px(ground + 4)}v6H${px(late)}${open}`)
  );
}

function drawBar(bar: WallBar, x: number, half: number, depth: Depth, open: string, covered: string): string {
  const left = x - half;
  const ground = depth.y(bar.wallMm);
  const full = (mark: string) => rect(mark, left, depth.coronetY, 2 * half, ground - depth.coronetY);
  if (bar.state === 'healed') return full('wall');
  if (bar.topMm === undefined || bar.kind === 'not-reached') return full('gone');
  const top = Math.min(depth.y(bar.topMm), ground);
  const fill = bar.state === 'covered' ? covered : open;
  const edge = bar.bareFromMm === undefined ? 'edge' : 'gone';
  return (
    rect(bar.unused ? 'pale' : 'wall', left, depth.coronetY, 2 * half, top - depth.coronetY) +
    (edge === 'gone' ? rect('gone', left, top, 2 * half, ground - top) : '') +
    rect('', left, top, 2 * half, ground - top, fill) +
    (edge === 'edge' ? rect('edge', left, top, 2 * half, ground - top) : '') +
    line(bar.unused || bar.kind === 'doubtful' ? 'unsure' : 'top', left - 3, top, left + 2 * half + 3, top)
  );
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

function runUps(bars: readonly WallBar[], axis: TimeAxis, depth: Depth, half: number): string {
  return bars
    .flatMap((bar) => {
      if (bar.kind !== 'ran-up' || bar.topMm === undefined || bar.ranUpMm === undefined) return [];
      const x = axis.x(bar.date) - half - 7;
      const [tip, tail] = [depth.y(bar.topMm), Math.min(depth.y(bar.topMm + bar.ranUpMm), depth.groundY)];
      return tail - tip < 8 ? [] : path('up', `M${px(x)} ${px(tail)}V${px(tip + 1)}m-4 6l4-6l4 6`);
    })
    .join('');
}

function heldBrackets(held: readonly HeldStretch[], axis: TimeAxis, half: number): string {
  return held
    .map(({ from, to }) =>
      path('up', `M${px(axis.x(from) - half)} ${topRoom - 4}v-6H${px(axis.x(to) + half)}v6`),
    )
    .join('');
}

/** The latest first, then where it turned, then the first, then the rest from the latest on. */
function byWeight(bars: readonly WallBar[]): WallBar[] {
  const weight = (bar: WallBar, at: number): number =>
    at === bars.length - 1
      ? 0
      : bar.kind === 'ran-up' || bar.state === 'healed'
        ? 1
        : at === 0
          ? 2
          : 3 + bars.length - at;
  return bars
    .map((bar, at) => ({ bar, weight: weight(bar, at) }))
    .toSorted((a, b) => a.weight - b.weight)
    .map(({ bar }) => bar);
}

/** In the wall above its line where there is room, else just beneath it. */
function numbers(bars: readonly WallBar[], axis: TimeAxis, depth: Depth, words: Words): WantsPlace[] {
  return byWeight(bars).flatMap((bar): WantsPlace[] => {
    const x = axis.x(bar.date);
    if (bar.state === 'healed') return [];
    if (bar.topMm === undefined || bar.kind === 'not-reached')
      return [{ mark: 'np', x, y: (depth.coronetY + depth.groundY) / 2, text: '?', size: 13 }];
    const mm = words.number(px(bar.topMm));
    const way = bar.kind === 'doubtful' ? 'doubtful' : bar.unused ? 'unused' : undefined;
    const text = way ? words.say(`figure.wall.number.${way}`, { mm }) : mm;
    const y = Math.min(depth.y(bar.topMm), depth.y(bar.wallMm));
    const above = y - depth.coronetY >= 18;
    return [
      { mark: 'np', x, y: above ? y - 5 : y + 15.5, text, size: 13, ...(above ? { orElse: 20.5 } : {}) },
    ];
  });
}

/** What is written over a bar, in the colour of what is open. */
function notes({ bars, held }: WallStripInput, axis: TimeAxis, words: Words): WantsPlace[] {
  const say = (key: string) => words.say(`figure.wall.bar.${key}`);
  const over = (x: number, text: string): WantsPlace => ({
    mark: 'w',
    x,
    y: topRoom - 12,
    text,
    size: 11,
    orElse: -11,
  });
  return [
    ...byWeight(bars).flatMap((bar): WantsPlace[] => {
      const x = axis.x(bar.date);
      if (bar.kind === 'ran-up') {
        const size =
          bar.ranUpMm === undefined
            ? say('ran-up')
            : words.say('figure.wall.bar.ran-up-mm', { mm: Math.round(bar.ranUpMm) });
        const lost = bar.lostMonths !== undefined && monthsInWords(bar.lostMonths, words);
        return [over(x, words.commas([size, lost]))];
      }
      if (bar.state === 'healed' || bar.state === 'covered' || bar.state === 'lasting')
        return [over(x, say(bar.state))];
      if (bar.joined !== undefined)
        return [over(x, words.say('figure.wall.bar.joined', { lesion: bar.joined }))];
      return bar.kind !== undefined &&
        ['doubtful', 'at-coronet', 'not-reached', 'does-not-fit', 'lower-than-growth'].includes(bar.kind)
        ? [over(x, say(bar.kind))]
        : [];
    }),
    ...held.map(({ from, to }) => over((axis.x(from) + axis.x(to)) / 2, say('held'))),
  ];
}

/** The date with its range in a few words, or why there is none. */
function outInShort({ out, noForecast, ifSoundHornFollows }: WallStripInput, words: Words): string[] {
  if (noForecast) return noForecast === 'healed' ? [] : [words.say(`figure.wall.no-date.${noForecast}`)];
  if (!out?.early) return [];
  const say = (key: string, values: Record<string, string>) => words.say(`figure.wall.short.${key}`, values);
  const early = dayInShort(words, out.early);
  const late = out.late === null ? undefined : dayInShort(words, out.late);
  if (ifSoundHornFollows)
    return [late === undefined ? say('if-open', { early }) : say('if', { early, late })];
  return [
    late === undefined ? say('open', { early }) : say('out', { early, late }),
    ...(out.best === null ? [] : [say('likely', { best: dayInShort(words, out.best) })]),
  ];
}

function outText(
  texts: readonly string[],
  { out }: WallStripInput,
  axis: TimeAxis,
  y: number,
  words: Words,
): WantsPlace[] {
  const text = words.dots(texts);
  if (text === '') return [];
  const end = out?.late ? axis.x(out.late) : axis.right;
  return [{ mark: 'k', x: Math.min(end, axis.right) - textWidth(text, 11, 'bold') / 2, y, text, size: 11 }];
}

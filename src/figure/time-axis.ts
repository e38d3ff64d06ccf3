import { addDays, type CalendarDay, daysBetween } from '../record/calendar-day.js';
import { largest, smallest } from '../statistics/estimate.js';
import type { Words } from '../reference/words.js';
import { dayInShort } from '../words/day-and-place.js';
import { figureOf, hatch } from './figure.js';
import { type Box, overlaps } from './place-tags.js';
import { label, line, path, px } from './svg-mark.js';
import { timelineRows, type TimelineInput } from './timeline-rows.js';
import { textWidth } from './wrap-text.js';

/** The room a drawing has. */
export interface DrawingRoom {
  readonly widthPx: number;
  /** For the wall or the ulcer alone. */
  readonly tallestPx: number;
  /** Distinguishes the drawings of one figure: paper and phone. */
  readonly of: 'paper' | 'phone';
}

/** What a drawing on true time shows beside its own. */
export interface OnTime {
  readonly today: CalendarDay;
  /** Day of the next lift. */
  readonly lift?: CalendarDay;
  /** Walk, block, wrap, vet and withheld days, drawn beneath on the same days. */
  readonly beneath?: TimelineInput;
}

/** Days to scale: where each lies across a drawing. */
export interface TimeAxis {
  readonly first: CalendarDay;
  readonly last: CalendarDay;
  /** Middle of a day, px from the left edge. */
  readonly x: (day: CalendarDay) => number;
  readonly left: number;
  readonly right: number;
}

/** A text that wants a place; those that come first get theirs, and one that would cover another is left out. */
export interface WantsPlace {
  readonly mark: string;
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  /** Tried where the first place is taken, px further down (or up). */
  readonly orElse?: number;
}

/** One drawing on true time: what it is called, the days it describes, and how it is drawn on them. */
interface TimeDrawing extends OnTime {
  readonly id: string;
  readonly room: DrawingRoom;
  readonly title: string;
  readonly description: string;
  /** Days with something to show, the weightiest first: their dates are beneath. */
  readonly days: readonly CalendarDay[];
  /** The last day anything is expected on. */
  readonly until?: CalendarDay | null | undefined;
  /** What is at the left of the drawing, beside the names of what runs beneath. */
  readonly names: readonly string[];
  /** Where the drawing ends and its dates begin, px. */
  readonly bottom: number;
  /** Between the dates and what runs beneath. */
  readonly gap: number;
  readonly draw: (
    axis: TimeAxis,
    fills: TimeFills,
  ) => { readonly body: string; readonly texts: readonly WantsPlace[] };
}

/** Hatchings of what is open and what is covered, as fills. */
export type TimeFills = Readonly<Record<'open' | 'covered', string>>;

/** Where a drawing on true time begins: room for two lines over it, px. */
export const topRoom = 34;
/** Height of the dates under a drawing, px. */
export const datesHeight = 35;

/**
 * A drawing on true time with its dates, the day it is as on, the next lift, and what runs beneath; and the texts for which
 * it had no room.
 *
 * Checked: tests/figure/wall-on-time.test.ts, tests/figure/closing-on-time.test.ts
 */
export function drawOnTime(
  { id, room, title, description, names, bottom, gap, draw, ...of }: TimeDrawing,
  words: Words,
) {
  const { today, lift, beneath } = of;
  const [open, covered] = [hatch(id, 'open'), hatch(id, 'covered')];
  const { first, last } = daysShown(of);
  const from = beneath && beneath.from > first ? beneath.from : first;
  const rows = beneath ? timelineRows({ ...beneath, visits: [], ranUp: [], from }, words, open.fill) : [];
  const wide = [...names, ...rows.map(({ name }) => name)].map((name) => textWidth(name, 11) + 14);
  const left = largest(wide, 52);
  const axis = timeAxis(first, last, left, room.widthPx - 12);
  const drawn = draw(axis, { open: open.fill, covered: covered.fill });
  const isToday = today >= first && today <= last;
  const todayX = axis.x(today);
  const placed = placeTexts(
    [
      ...drawn.texts,
      ...(isToday ? [{ mark: 's', x: todayX, y: 12, text: words.say('figure.time.today'), size: 11 }] : []),
      ...datesUnder(of.days, axis, bottom, words, lift),
    ],
    { left: left - 6, right: room.widthPx - 2 },
  );
  const inside = (day: CalendarDay): number => axis.x(day < first ? first : day > last ? last : day);
  let y = bottom + datesHeight + gap;
  const lanes = rows.map((row) => {
    const laid = row.lay(inside);
    const middle = y + laid.middle;
    const lane =
      label('s', left - 8, middle + 4, row.name, 'end') +
      line('rule', left - 4, middle, inside(beneath?.to ?? last), middle) +
      laid.draw(y);
    y += laid.height;
    return lane;
  });
  const body =
    drawn.body +
    (isToday ? line('divide', todayX, 15, todayX, bottom) : '') +
    (lift === undefined ? '' : path('solid', `M${px(axis.x(lift) - 5)} ${px(bottom - 12)}h10l-5 9z`)) +
    placed.body +
    lanes.join('');
  const defs = [open, covered].map(({ def, fill }) => (body.includes(fill) ? def : '')).join('');
  const parts = { id, width: room.widthPx, height: y + 2, title, description, defs, body };
  return figureOf(parts, { leftOut: placed.leftOut });
}

/** What runs beneath is shown from so many days before the first look on: what came before her block and her first walk. */
const daysBefore = 60;

/** From the first look, or what runs beneath it shortly before, to the last day anything is said of; of a closed case to its end. */
function daysShown({
  days,
  until,
  lift,
  beneath,
  today,
}: Pick<TimeDrawing, 'days' | 'until' | keyof OnTime>) {
  const first = days.reduce((a, b) => (a < b ? a : b), days[0] ?? today);
  const earliest = addDays(first, -daysBefore);
  const begin =
    beneath === undefined || beneath.from > first ? first : beneath.from < earliest ? earliest : beneath.from;
  const last = [...days, lift, until].reduce<CalendarDay>(
    (latest, day) => (day && day > latest ? day : latest),
    beneath?.to ?? today,
  );
  const margin = Math.round(Math.max(21, daysBetween(begin, last)) * 0.04) + 3;
  return { first: addDays(begin, -margin), last: addDays(last, margin) };
}

/** @example timeAxis('2026-01-01', '2026-01-11', 50, 150).x('2026-01-06') // → 100 */
export function timeAxis(first: CalendarDay, last: CalendarDay, left: number, right: number): TimeAxis {
  const days = Math.max(1, daysBetween(first, last));
  const x = (day: CalendarDay): number => left + ((right - left) * daysBetween(first, day)) / days;
  return { first, last, x, left, right };
}

/** Half the width of what is on a day, px: on two near days they must not cover each other. */
export function halfOf(days: readonly CalendarDay[], axis: TimeAxis, widest: number): number {
  const apart = days.slice(1).map((day, at) => axis.x(day) - axis.x(days[at]!));
  return Math.max(3, Math.min(widest, (smallest(apart, 40) - 3) / 2));
}

/** The latest first, then where it turned, then the first, then the rest from the latest on. */
export function byWeight<T>(oldestFirst: readonly T[], turned: (one: T) => boolean): T[] {
  const count = oldestFirst.length;
  const weights = oldestFirst.map((one, at) => {
    if (at === count - 1) return 0;
    if (turned(one)) return 1;
    return at === 0 ? 2 : 3 + count - at;
  });
  return [...weights.keys()].sort((a, b) => weights[a]! - weights[b]!).map((at) => oldestFirst[at]!);
}

/** A day cut short, with its year where that is not the one it is beside. */
export function dayBeside(words: Words, day: CalendarDay, beside: CalendarDay | undefined): string {
  const text = dayInShort(words, day);
  const year = day.slice(0, 4);
  return beside?.slice(0, 4) === year ? text : words.say('figure.day-year', { day: text, year });
}

/** Days since the one before, as they are in a table. */
export function daysSince(looks: readonly { readonly date: CalendarDay }[]): string[] {
  return looks.map(({ date }, at) => (at === 0 ? '' : String(daysBetween(looks[at - 1]!.date, date))));
}

/** A length in mm as it was written; empty without one. */
export function lengthInWords(mm: number | undefined, words: Words): string {
  return mm === undefined ? '' : words.number(px(mm));
}

/** The mm between which a length should lie. Such as: 0 to 5. */
export function rangeInMm(low: number, high: number, words: Words): string {
  return words.say('figure.range', { low: Math.round(Math.max(0, low)), high: Math.round(high) });
}

/** A text that ends at a place. */
export function endingAt(end: number, y: number, text: string): WantsPlace {
  return { mark: 'k', x: end - textWidth(text, 11, 'bold') / 2, y, text, size: 11 };
}

/** Puts texts down in their order of weight, kept between two edges; and those for which there was no room. */
function placeTexts(
  wanted: readonly WantsPlace[],
  { left, right }: { readonly left: number; readonly right: number },
): { readonly body: string; readonly leftOut: readonly WantsPlace[] } {
  const taken: Box[] = [];
  const leftOut: WantsPlace[] = [];
  let body = '';
  for (const one of wanted) {
    const { mark, x, y, text, size, orElse = 0 } = one;
    const half = textWidth(text, size, 'bold') / 2;
    const middle = Math.min(Math.max(x, left + half), right - half);
    const boxAt = (at: number): Box => ({
      x: middle - half - 2,
      y: at - size * 0.8,
      width: 2 * half + 4,
      height: size * 1.05,
    });
    const free = [y, y + orElse].find((at) => !taken.some((box) => overlaps(box, boxAt(at))));
    if (free === undefined) leftOut.push(one);
    else {
      taken.push(boxAt(free));
      body += label(mark, middle, free, text);
    }
  }
  return { body, leftOut };
}

/** Dates under what they belong to, in two rows where one has no room, each year once; the day of the next lift comes first. */
function datesUnder(
  days: readonly CalendarDay[],
  axis: TimeAxis,
  y: number,
  words: Words,
  lift: CalendarDay | undefined,
): WantsPlace[] {
  const inOrder = [...days].sort();
  const before = new Map(inOrder.map((day, at) => [day, inOrder[at - 1]]));
  const at = (day: CalendarDay, mark: string, beside: CalendarDay | undefined): WantsPlace => ({
    mark,
    x: axis.x(day),
    y: y + 17,
    text: dayBeside(words, day, beside),
    size: 11,
    orElse: 13,
  });
  return [
    ...(lift === undefined ? [] : [at(lift, 'k', inOrder.at(-1))]),
    ...days.map((day) => at(day, 's', before.get(day))),
  ];
}

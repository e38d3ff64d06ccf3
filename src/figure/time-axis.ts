import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import { dayInShort } from '../words/number-in-words.js';
import { label, line, path, px } from './svg-mark.js';
import { timelineRows, type TimelineInput } from './timeline-rows.js';
import { textWidth } from './wrap-text.js';

/** Days to scale: where each lies across a drawing. */
export interface TimeAxis {
  readonly first: CalendarDay;
  readonly last: CalendarDay;
  /** Middle of a day, px from the left edge. */
  readonly x: (day: CalendarDay) => number;
  readonly left: number;
  readonly right: number;
}

/** @example timeAxis('2026-01-01', '2026-01-11', 50, 150).x('2026-01-06') // → 100 */
export function timeAxis(first: CalendarDay, last: CalendarDay, left: number, right: number): TimeAxis {
  const days = Math.max(1, daysBetween(first, last));
  const x = (day: CalendarDay): number => left + ((right - left) * daysBetween(first, day)) / days;
  return { first, last, x, left, right };
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
  /** Drawn with it, once the height is known. */
  readonly tie?: (y: number) => string;
}

interface Box {
  readonly x1: number;
  readonly x2: number;
  readonly y1: number;
  readonly y2: number;
}

/** Puts texts down in their order of weight, kept between two edges; what it could not place is counted. */
export function placeTexts(
  wanted: readonly WantsPlace[],
  { left, right }: { readonly left: number; readonly right: number },
): { readonly body: string; readonly leftOut: number } {
  const taken: Box[] = [];
  let body = '';
  let leftOut = 0;
  for (const { mark, x, y, text, size, orElse, tie } of wanted) {
    const half = textWidth(text, size, 'bold') / 2;
    const middle = Math.min(Math.max(x, left + half), right - half);
    const boxAt = (at: number): Box => ({
      x1: middle - half - 2,
      x2: middle + half + 2,
      y1: at - size * 0.8,
      y2: at + size * 0.25,
    });
    const free = [y, ...(orElse === undefined ? [] : [y + orElse])].find(
      (at) => !taken.some((box) => meet(box, boxAt(at))),
    );
    if (free === undefined) leftOut += 1;
    else {
      taken.push(boxAt(free));
      body += (tie?.(free) ?? '') + label(mark, middle, free, text);
    }
  }
  return { body, leftOut };
}

function meet(a: Box, b: Box): boolean {
  return a.x1 < b.x2 && b.x1 < a.x2 && a.y1 < b.y2 && b.y1 < a.y2;
}

/** Height of the dates under a drawing, px. */
export const datesHeight = 32;

/** Dates under what they belong to, in two rows where one has no room; the day of the next lift comes first. */
export function datesUnder(
  days: readonly CalendarDay[],
  axis: TimeAxis,
  y: number,
  words: Words,
  lift?: CalendarDay,
): WantsPlace[] {
  const at = (day: CalendarDay, mark: string): WantsPlace => ({
    mark,
    x: axis.x(day),
    y: y + 13,
    text: dayInShort(words, day),
    size: 11,
    orElse: 13,
  });
  return [...(lift === undefined ? [] : [at(lift, 'k')]), ...days.map((day) => at(day, 's'))];
}

/** A small triangle on the ground, on the day of the next lift. */
export function liftMark(lift: CalendarDay | undefined, axis: TimeAxis, y: number): string {
  return lift === undefined ? '' : path('solid', `M${px(axis.x(lift) - 5)} ${px(y - 12)}h10l-5 9z`);
}

/** The day a page is as on: what stands to its right is expected, not seen. Its line, and its name to be placed. */
export function todayMark(
  today: CalendarDay,
  axis: TimeAxis,
  top: number,
  bottom: number,
  words: Words,
): { readonly line: string; readonly name: readonly WantsPlace[] } {
  if (today < axis.first || today > axis.last) return { line: '', name: [] };
  const x = axis.x(today);
  return {
    line: line('divide', x, top, x, bottom),
    name: [{ mark: 's', x, y: top - 3, text: words.say('figure.time.today'), size: 11 }],
  };
}

/** What runs beneath a drawing on the same days: its names, and how it is drawn once the axis is known. */
export function layBeneath(
  input: TimelineInput | undefined,
  words: Words,
  fill: string,
): {
  readonly names: readonly string[];
  readonly draw: (axis: TimeAxis, top: number) => { readonly body: string; readonly height: number };
} {
  const rows = input ? timelineRows({ ...input, visits: [], ranUp: [] }, words, fill) : [];
  const draw = (axis: TimeAxis, top: number) => {
    const inside = (day: CalendarDay): number =>
      axis.x(day < axis.first ? axis.first : day > axis.last ? axis.last : day);
    let y = top;
    const body = rows.map((row) => {
      const laid = row.lay(inside);
      const middle = y + laid.middle;
      const drawn =
        label('s', axis.left - 8, middle + 4, row.name, 'end') +
        line('rule', axis.left - 4, middle, inside(input?.to ?? axis.last), middle) +
        laid.draw(y);
      y += laid.height;
      return drawn;
    });
    return { body: body.join(''), height: y - top };
  };
  return { names: rows.map(({ name }) => name), draw };
}

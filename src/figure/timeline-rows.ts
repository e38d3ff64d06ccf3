import { largest } from '../statistics/extremes.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../words/words.js';
import { joinedSpans } from './joined-spans.js';
import { lanes } from './lanes.js';
import { sideBySide } from './side-by-side.js';
import { line } from './svg-mark.js';
import { ranUpMark, scoreMark, spanMark, vetMark, visitMark, type XOfDay } from './timeline-marks.js';
import type { DaySpan, TimelineInput } from './timeline-input.js';

/** A row of the time line: its name, and the row laid out once it is known where a day lies. */
export interface TimelineRow {
  readonly name: string;
  readonly lay: (x: XOfDay) => LaidRow;
}

/** A row of a known height, drawn from its upper edge down; `middle` is where its name and its rule stand. */
export interface LaidRow {
  readonly height: number;
  readonly middle: number;
  readonly draw: (topY: number) => string;
}

const visitHeight = 20;
const spanHeight = 18;

/** The rows that have something to show, top to bottom; `fill` is the hatching. */
export function timelineRows(input: TimelineInput, words: Words, fill: string): TimelineRow[] {
  const name = (key: string, values = {}) => words.say(`figure.time.row.${key}`, values);
  const foot = (of: string) => words.say(`figure.time.short-foot.${of}`);
  const inside = <T extends { readonly date: CalendarDay }>(items: readonly T[]) =>
    items.filter(({ date }) => date >= input.from && date <= input.to);
  const spans = (of: string, items: readonly DaySpan[], look: string) =>
    spanRow(of, items, input, look, fill);
  const grouped = <T extends DaySpan>(items: readonly T[], nameOf: (item: T) => string, look: string) =>
    [...new Set(items.map(nameOf))].sort().flatMap((of) =>
      spans(
        of,
        items.filter((item) => nameOf(item) === of),
        look,
      ),
    );
  const withheld = (what: 'milk' | 'meat') =>
    spans(name(what), joinedSpans(input.withheld.filter((of) => of.what === what)), 'edge');
  return [
    ...visitRow(name('visit'), inside(input.visits)),
    ...markRow(name('gait'), inside(input.gait), scoreMark, { apart: 26, half: 12, height: 27 }, input),
    ...markRow(name('ran-up'), inside(input.ranUp), ranUpMark, { apart: 13, half: 6, height: 18 }, input),
    ...grouped(
      input.blocks,
      (of) => name('block', { foot: foot(of.foot), claw: words.say(`figure.foot.${of.claw}`) }),
      'block',
    ),
    ...grouped(input.wraps, (of) => name('wrap', { foot: foot(of.foot) }), 'ring'),
    ...withheld('milk'),
    ...withheld('meat'),
    ...markRow(name('vet'), inside(input.vet), vetMark, { apart: 14, half: 6, height: 18 }, input),
  ];
}

/** Ticks stand on their day, however near each other: a tick is thin. */
function visitRow(name: string, visits: TimelineInput['visits']): TimelineRow[] {
  if (visits.length === 0) return [];
  return [
    {
      name,
      lay: (x) => ({
        height: visitHeight,
        middle: visitHeight / 2,
        draw: (topY) =>
          `<g transform="translate(0 ${topY})">${visits.map((of) => visitMark(of, x(of.date))).join('')}</g>`,
      }),
    },
  ];
}

interface Room {
  /** Least distance of two middles, half the width of a mark and the height of its row, px. */
  readonly apart: number;
  readonly half: number;
  readonly height: number;
}

/** Marks that would cover each other move aside, each with a stroke to its own day; too many for that take lanes. */
function markRow<T extends { readonly date: CalendarDay }>(
  name: string,
  items: readonly T[],
  mark: (item: T, x: number, y: number) => string,
  { apart, half, height }: Room,
  { from, to }: TimelineInput,
): TimelineRow[] {
  if (items.length === 0) return [];
  const lay = (x: XOfDay): LaidRow => {
    const days = items.map(({ date }) => x(date));
    const aside = sideBySide(days, apart, x(from), x(to));
    const at = aside
      ? days.map(() => 0)
      : lanes(days.map((day) => ({ from: day - apart / 2, to: day + apart / 2 })));
    const moved = aside?.some((place, of) => Math.abs(place - days[of]!) > 2) ?? false;
    const room = height + (moved ? 4 : 0);
    return {
      height: (largest(at) + 1) * room,
      middle: ((largest(at) + 1) * room) / 2,
      draw: (topY) =>
        items
          .map((item, of) => {
            const y = topY + at[of]! * room + room - height / 2;
            const place = aside?.[of] ?? days[of]!;
            const isMoved = Math.abs(place - days[of]!) > 2;
            const stroke = isMoved ? line('thin', days[of]!, topY - 1, place, y - half) : '';
            return stroke + mark(item, place, y);
          })
          .join(''),
    };
  };
  return [{ name, lay }];
}

/** Spans that would cover each other, as of two blocks under one claw, stand in lanes. */
function spanRow(
  name: string,
  items: readonly DaySpan[],
  { from, to }: TimelineInput,
  look: string,
  fill: string,
): TimelineRow[] {
  const shown = items.filter((item) => item.from <= to && (item.to ?? to) >= from);
  if (shown.length === 0) return [];
  const lay = (x: XOfDay): LaidRow => {
    const placed = shown.map((item) => spanMark(upToNext(item, shown), to, x, look, fill));
    const at = lanes(placed);
    const height = (largest(at) + 1) * spanHeight;
    return {
      height,
      middle: height / 2,
      draw: (topY) => placed.map((mark, of) => mark.draw(topY + (at[of]! + 0.5) * spanHeight)).join(''),
    };
  };
  return [{ name, lay }];
}

/** One that is followed by another on its last day, as a block replaced, is drawn to the day before. */
function upToNext(item: DaySpan, others: readonly DaySpan[]): DaySpan {
  const { from, to } = item;
  const isFollowed = to !== undefined && to > from && others.some((other) => other.from === to);
  return isFollowed ? { ...item, to: addDays(to, -1) } : item;
}

import { type CalendarDay, addDays } from '../record/calendar-day.js';
import type { Claw, Foot } from '../record/words.js';
import { largest } from '../statistics/estimate.js';
import type { Words } from '../reference/words.js';
import { line, circle, label, path, px, rect } from './svg-mark.js';

/**
 * Lanes for things that would cover each other on one line: each takes the first lane where it is clear.
 * @example lanes([{ from: 0, to: 10 }, { from: 5, to: 15 }, { from: 12, to: 20 }]) // → [0, 1, 0]
 */
export function lanes(spans: readonly { readonly from: number; readonly to: number }[]): number[] {
  const order = spans.map((_, at) => at).sort((a, b) => spans[a]!.from - spans[b]!.from || a - b);
  const ends: number[] = [];
  const found: number[] = spans.map(() => 0);
  for (const at of order) {
    const { from, to } = spans[at]!;
    const free = ends.findIndex((end) => end <= from);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = to;
    found[at] = lane;
  }
  return found;
}

/** Days from the first to the last, both in; without `to`, not ended or the day not known (`endUnknown`). */
export interface DaySpan {
  readonly from: CalendarDay;
  readonly to?: CalendarDay;
  readonly endUnknown?: boolean;
}

/** What one animal's time line shows: plain days, worked out elsewhere. Any order; lists may be empty. */
export interface TimelineInput {
  /** Unique on the page. */
  readonly id: string;
  /** First and last day of the line; what lies outside is cut. */
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  readonly visits: readonly { readonly date: CalendarDay; readonly kind: 'visit' | 'report' | 'missed' }[];
  readonly gait: readonly {
    readonly date: CalendarDay;
    readonly score: number;
    readonly block: 'on' | 'off' | 'unclear';
  }[];
  /** The scale's name in words, for the line beneath; absent without scores. */
  readonly gaitScale?: string;
  readonly blocks: readonly (DaySpan & { readonly foot: Foot; readonly claw: Claw })[];
  readonly wraps: readonly (DaySpan & { readonly foot: Foot })[];
  /** `to` is the last withheld day. */
  readonly withheld: readonly (DaySpan & { readonly what: 'milk' | 'meat' })[];
  readonly vet: readonly { readonly date: CalendarDay; readonly what: 'asked' | 'answered' }[];
  readonly ranUp: readonly { readonly date: CalendarDay; readonly lesion: string }[];
}

/** Where a day lies along the line, px. */
type XOfDay = (day: CalendarDay) => number;

/** A row of the time line: its name, and the row laid out once it is known where a day lies. */
interface TimelineRow {
  readonly name: string;
  readonly lay: (x: XOfDay) => LaidRow;
}

/** A row of a known height, drawn from its upper edge down; `middle` is where its name and its rule are. */
interface LaidRow {
  readonly height: number;
  readonly middle: number;
  readonly draw: (topY: number) => string;
}

const visitHeight = 20;
const spanHeight = 18;
const halfBar = 5;

/** The rows that have something to show, top to bottom; `fill` is the hatching. */
export function timelineRows(input: TimelineInput, words: Words, fill: string): TimelineRow[] {
  const name = (key: string, values = {}) => words.say(`figure.time.row.${key}`, values);
  const foot = (of: string) => words.say(`figure.time.short-foot.${of}`);
  const inside = <T extends { readonly date: CalendarDay }>(items: readonly T[]) =>
    items.filter(({ date }) => date >= input.from && date <= input.to);
  const spans = (of: string, items: readonly DaySpan[], look: string) =>
    spanRow(of, items, input, look, fill);
  const grouped = <T extends DaySpan>(items: readonly T[], nameOf: (item: T) => string, look: string) =>
    [...new Set(items.map(nameOf))].sort().flatMap((of) => {
      const these = items.filter((item) => nameOf(item) === of);
      return spans(of, these, look);
    });
  const oneFoot = new Set([...input.blocks, ...input.wraps].map((of) => of.foot)).size === 1;
  const withheld = (what: 'milk' | 'meat') =>
    spans(name(what), joinedSpans(input.withheld.filter((of) => of.what === what)), 'edge');
  const blockName = (of: TimelineInput['blocks'][number]) =>
    name(oneFoot ? 'block-claw' : 'block', {
      foot: foot(of.foot),
      claw: words.say(`figure.foot.${of.claw}`),
    });
  return [
    ...visitRow(name('visit'), inside(input.visits)),
    ...markRow(name('gait'), inside(input.gait), scoreMark, { apart: 26, half: 12, height: 27 }, input),
    ...markRow(name('ran-up'), inside(input.ranUp), ranUpMark, { apart: 13, half: 6, height: 18 }, input),
    ...grouped(input.blocks, blockName, 'block'),
    ...grouped(input.wraps, (of) => name(oneFoot ? 'wrap-alone' : 'wrap', { foot: foot(of.foot) }), 'ring'),
    ...withheld('milk'),
    ...withheld('meat'),
    ...markRow(name('vet'), inside(input.vet), vetMark, { apart: 14, half: 6, height: 18 }, input),
  ];
}

/** Filled off the block, hollow on it; where nobody knows, hollow with half a ring round it. */
function scoreMark({ score, block }: TimelineInput['gait'][number], x: number, y: number): string {
  return (
    circle(block === 'off' ? 'solid' : 'ring', x, y, 9) +
    (block === 'unclear' ? path('half', `M${px(x)} ${px(y - 12)}a12 12 0 0 0 0 24`) : '') +
    label(block === 'off' ? 'ni' : 't', x, y + 4, px(score))
  );
}

/** Filled for asked, hollow for answered. */
function vetMark({ what }: TimelineInput['vet'][number], x: number, y: number): string {
  return rect(what === 'asked' ? 'vet' : 'up', x - 5, y - 5, 10, 10);
}

function ranUpMark(_: TimelineInput['ranUp'][number], x: number, y: number): string {
  return path('up', `M${px(x)} ${px(y + 7)}v-13m-4.5 5l4.5-5l4.5 5`);
}

/** A tick on each day, however near each other: a tick is thin. A short one for a report, a cross for a visit missed. */
function visitRow(name: string, visits: TimelineInput['visits']): TimelineRow[] {
  if (visits.length === 0) return [];
  const tick = (kind: string, x: number): string => {
    if (kind === 'missed') return path('thin', `M${px(x - 4)} 6l8 8m0-8l-8 8`);
    return kind === 'visit' ? line('top', x, 2, x, 18) : line('thin', x, 6, x, 14);
  };
  const lay = (x: XOfDay): LaidRow => {
    const ticks = visits.map(({ kind, date }) => tick(kind, x(date))).join('');
    const draw = (topY: number) => `<g transform="translate(0 ${topY})">${ticks}</g>`;
    return { height: visitHeight, middle: visitHeight / 2, draw };
  };
  return [{ name, lay }];
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
    const places = aside ?? days;
    const at = aside
      ? days.map(() => 0)
      : lanes(days.map((day) => ({ from: day - apart / 2, to: day + apart / 2 })));
    const isMoved = days.map((day, of) => Math.abs(places[of]! - day) > 2);
    const room = height + (isMoved.includes(true) ? 4 : 0);
    const whole = (largest(at) + 1) * room;
    const draw = (topY: number) => {
      const drawn = items.map((item, of) => {
        const y = topY + at[of]! * room + room - height / 2;
        const stroke = isMoved[of] ? line('thin', days[of]!, topY - 1, places[of]!, y - half) : '';
        return stroke + mark(item, places[of]!, y);
      });
      return drawn.join('');
    };
    return { height: whole, middle: whole / 2, draw };
  };
  return [{ name, lay }];
}

/** Bars over whole days; an end that is open or not known runs out in three strokes. Those that would cover each other, as of two blocks under one claw, are in lanes. */
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
    const bars = shown.map((item) => {
      const span = upToNext(item, shown);
      const start = x(span.from);
      const end = Math.max(start + 4, x(addDays(span.to ?? to, 1)));
      const runsOut = span.to === undefined || span.endUnknown === true;
      return { from: start, end, to: end + (runsOut ? 11 : 0), runsOut };
    });
    const at = lanes(bars);
    const height = (largest(at) + 1) * spanHeight;
    const draw = (topY: number) => {
      const drawn = bars.map(({ from: start, end, runsOut }, of) => {
        const y = topY + (at[of]! + 0.5) * spanHeight;
        const bar = (mark: string, hatching?: string) =>
          rect(mark, start, y - halfBar, end - start - 1, 2 * halfBar, hatching);
        const strokes = runsOut ? path('thin', `M${px(end + 2.5)} ${px(y - 4)}v8m3.5-8v8m3.5-8v8`) : '';
        return (look === 'edge' ? bar('', fill) : '') + bar(look) + strokes;
      });
      return drawn.join('');
    };
    return { height, middle: height / 2, draw };
  };
  return [{ name, lay }];
}

/** One that is followed by another on its last day, as a block replaced, is drawn to the day before. */
function upToNext(item: DaySpan, others: readonly DaySpan[]): DaySpan {
  const { from, to } = item;
  const isFollowed = to !== undefined && to > from && others.some((other) => other.from === to);
  return isFollowed ? { ...item, to: addDays(to, -1) } : item;
}

/**
 * Spans that touch or overlap as one, from the first day to the last: what is withheld twice is withheld once.
 * @example joinedSpans([{ from: '2026-03-01', to: '2026-03-04' }, { from: '2026-03-03', to: '2026-03-09' }]) // → [{ from: '2026-03-01', to: '2026-03-09' }]
 */
export function joinedSpans(spans: readonly DaySpan[]): DaySpan[] {
  const joined: DaySpan[] = [];
  for (const span of spans.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))) {
    const before = joined.at(-1);
    const clear = before?.to !== undefined && span.from > addDays(before.to, 1);
    if (!before || clear) joined.push(span);
    else if (before.to !== undefined && (span.to === undefined || span.to > before.to))
      joined[joined.length - 1] = { ...span, from: before.from };
  }
  return joined;
}

/**
 * Places along a line for marks that would cover each other at their own: each moved as little as need be, in order,
 * `apartPx` from the next, none before `left` or beyond `right`. Undefined where there are too many for the line.
 * @example sideBySide([10, 12, 50], 10, 0, 60) // → [6, 16, 50]
 */
export function sideBySide(
  places: readonly number[],
  apartPx: number,
  left: number,
  right: number,
): number[] | undefined {
  if ((places.length - 1) * apartPx > right - left) return undefined;
  const order = places.map((_, at) => at).sort((a, b) => places[a]! - places[b]! || a - b);
  const clumps: { sum: number; count: number }[] = [];
  const startOf = ({ sum, count }: { sum: number; count: number }) => {
    const long = (count - 1) * apartPx;
    return Math.min(Math.max(left, sum / count - long / 2), right - long);
  };
  for (const at of order) {
    clumps.push({ sum: places[at]!, count: 1 });
    for (let last = clumps.length - 1; last > 0; last--) {
      const [before, after] = [clumps[last - 1]!, clumps[last]!];
      if (startOf(before) + before.count * apartPx <= startOf(after)) break;
      clumps.splice(last - 1, 2, { sum: before.sum + after.sum, count: before.count + after.count });
    }
  }
  const found = places.slice();
  let next = 0;
  for (const clump of clumps)
    for (let of = 0; of < clump.count; of++) found[order[next++]!] = startOf(clump) + of * apartPx;
  return found;
}

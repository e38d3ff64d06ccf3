import { addDays, type CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../words/words.js';
import { lanes } from './lanes.js';
import { circle, label, line, path, px, rect } from './svg-mark.js';
import type { DaySpan, TimelineInput } from './timeline-input.js';

/** A row of the time line: its name, and the row laid out once it is known where a day lies. */
export interface TimelineRow {
  readonly name: string;
  readonly lay: (x: XOfDay) => LaidRow;
}

/** Where a day lies along the line, px. */
export type XOfDay = (day: CalendarDay) => number;

/** A row of a known height, drawn from its upper edge down. */
export interface LaidRow {
  readonly height: number;
  readonly draw: (topY: number) => string;
}

/** One mark of a row: the room it takes along the line, and how it is drawn round a middle. */
interface Mark {
  readonly from: number;
  readonly to: number;
  readonly draw: (middleY: number) => string;
}

const laneHeight = 24;
const scoreLaneHeight = 27;
const scoreRadius = 9;
const halfBar = 5.5;

/** The rows that have something to show, top to bottom; `fill` is the hatching. */
export function timelineRows(input: TimelineInput, words: Words, fill: string): TimelineRow[] {
  const name = (key: string, values = {}) => words.say(`figure.time.row.${key}`, values);
  const foot = (of: string) => words.say(`figure.time.short-foot.${of}`);
  const inside = (from: CalendarDay, to: CalendarDay) => from <= input.to && to >= input.from;
  const points = <T extends { readonly date: CalendarDay }>(
    items: readonly T[],
    mark: (item: T, x: number) => Mark,
  ) => items.filter(({ date }) => inside(date, date)).map((item) => (x: XOfDay) => mark(item, x(item.date)));
  const spans = (items: readonly DaySpan[], look: string) =>
    items
      .filter(({ from, to }) => inside(from, to ?? input.to))
      .map((item) => (x: XOfDay) => spanMark(item, input.to, x, look, fill));
  const grouped = <T extends DaySpan>(items: readonly T[], nameOf: (item: T) => string, look: string) =>
    [...new Set(items.map(nameOf))].sort().flatMap((of) =>
      row(
        of,
        spans(
          items.filter((item) => nameOf(item) === of),
          look,
        ),
      ),
    );
  const withheld = (what: 'milk' | 'meat') =>
    row(
      name(what),
      spans(
        input.withheld.filter((of) => of.what === what),
        'edge',
      ),
    );
  return [
    ...row(name('visit'), points(input.visits, visitMark)),
    ...row(name('gait'), points(input.gait, scoreMark), scoreLaneHeight),
    ...grouped(
      input.blocks,
      (of) => name('block', { foot: foot(of.foot), claw: words.say(`figure.foot.${of.claw}`) }),
      'block',
    ),
    ...grouped(input.wraps, (of) => name('wrap', { foot: foot(of.foot) }), 'ring'),
    ...withheld('milk'),
    ...withheld('meat'),
    ...row(name('vet'), points(input.vet, vetMark)),
    ...row(name('ran-up'), points(input.ranUp, ranUpMark)),
  ];
}

/** Marks that would cover each other stand in lanes, one below the other. No marks, no row. */
function row(name: string, marks: readonly ((x: XOfDay) => Mark)[], lane = laneHeight): TimelineRow[] {
  if (marks.length === 0) return [];
  const lay = (x: XOfDay): LaidRow => {
    const placed = marks.map((mark) => mark(x));
    const at = lanes(placed);
    return {
      height: (Math.max(...at) + 1) * lane,
      draw: (topY) => placed.map((mark, of) => mark.draw(topY + (at[of]! + 0.5) * lane)).join(''),
    };
  };
  return [{ name, lay }];
}

function visitMark({ kind }: { readonly kind: 'visit' | 'report' | 'missed' }, x: number): Mark {
  const half = kind === 'visit' ? 8 : 4;
  return {
    from: x - 2.5,
    to: x + 2.5,
    draw: (y) =>
      kind === 'missed'
        ? path('thin', `M${px(x - 4)} ${px(y - 4)}l8 8m0-8l-8 8`)
        : line(kind === 'visit' ? 'top' : 'thin', x, y - half, x, y + half),
  };
}

/** Filled off the block, hollow on it; where nobody knows, hollow with half a ring round it. */
function scoreMark({ score, block }: TimelineInput['gait'][number], x: number): Mark {
  const room = scoreRadius + (block === 'unclear' ? 5 : 2);
  return {
    from: x - room,
    to: x + room,
    draw: (y) =>
      circle(block === 'off' ? 'solid' : 'ring', x, y, scoreRadius) +
      (block === 'unclear' ? path('half', `M${px(x)} ${px(y - 12)}a12 12 0 0 0 0 24`) : '') +
      label(block === 'off' ? 'ni' : 't', x, y + 4, px(score)),
  };
}

function vetMark({ what }: TimelineInput['vet'][number], x: number): Mark {
  return { from: x - 7, to: x + 7, draw: (y) => rect(what === 'asked' ? 'vet' : 'up', x - 5, y - 5, 10, 10) };
}

function ranUpMark(_: TimelineInput['ranUp'][number], x: number): Mark {
  return { from: x - 6, to: x + 6, draw: (y) => path('up', `M${px(x)} ${px(y + 8)}v-15m-4.5 6l4.5-6l4.5 6`) };
}

/** A bar over whole days; an end that is open or not known runs out in three strokes. */
function spanMark(span: DaySpan, lastDay: CalendarDay, x: XOfDay, look: string, fill: string): Mark {
  const from = x(span.from);
  const to = Math.max(from + 3, x(addDays(span.to ?? lastDay, 1)));
  const runsOut = span.to === undefined || span.endUnknown === true;
  return {
    from,
    to: to + (runsOut ? 11 : 1),
    draw: (y) =>
      (look === 'edge' ? rect('', from, y - halfBar, to - from, 2 * halfBar, fill) : '') +
      rect(look, from, y - halfBar, to - from, 2 * halfBar) +
      (runsOut ? path('thin', `M${px(to + 2.5)} ${px(y - 4)}v8m3.5-8v8m3.5-8v8`) : ''),
  };
}

import type { CalendarDay } from '../record/calendar-day.js';
import { addDays } from '../record/calendar-day.js';
import type { Words } from '../words/words.js';
import { lanes } from './lanes.js';
import { circle, label, line, path, px, rect } from './svg-mark.js';
import type { DaySpan, TimelineInput } from './timeline-input.js';

/** A row of the time line: its name, its height and how it is drawn round its middle. */
export interface TimelineRow {
  readonly name: string;
  readonly height: number;
  readonly draw: (middleY: number) => string;
}

const rowHeight = 24;
const gaitRadius = 9.5;

/** The rows that have something to show, top to bottom. `x` places a day. */
export function timelineRows(
  input: TimelineInput,
  words: Words,
  x: (day: CalendarDay) => number,
  fill: string,
): TimelineRow[] {
  const name = (key: string, values = {}) => words.say(`figure.time.row.${key}`, values);
  const foot = (of: string) => words.say(`figure.time.short-foot.${of}`);
  const inside = <T>(items: readonly T[], from: (item: T) => CalendarDay, to: (item: T) => CalendarDay) =>
    items.filter((item) => from(item) <= input.to && to(item) >= input.from);
  const points = <T extends { readonly date: CalendarDay }>(items: readonly T[]) =>
    inside(
      items,
      ({ date }) => date,
      ({ date }) => date,
    );
  const spans = <T extends DaySpan>(items: readonly T[]) =>
    inside(
      items,
      ({ from }) => from,
      ({ to }) => to ?? input.to,
    );
  const row = <T>(of: string, items: readonly T[], draw: (item: T, y: number) => string): TimelineRow[] =>
    items.length
      ? [{ name: of, height: rowHeight, draw: (y) => items.map((item) => draw(item, y)).join('') }]
      : [];
  const grouped = <T extends DaySpan>(items: readonly T[], nameOf: (item: T) => string, look: string) => {
    const held = spans(items);
    const names = [...new Set(held.map(nameOf))].sort();
    return names.flatMap((of) =>
      row(
        of,
        held.filter((item) => nameOf(item) === of),
        (span, y) => drawSpan(span, input, y, x, look, fill),
      ),
    );
  };
  return [
    ...row(name('visit'), points(input.visits), ({ date, kind }, y) => drawVisit(x(date), y, kind)),
    ...gaitRow(points(input.gait), name('gait'), x),
    ...grouped(
      input.blocks,
      (of) => name('block', { foot: foot(of.foot), claw: words.say(`figure.foot.${of.claw}`) }),
      'block',
    ),
    ...grouped(input.wraps, (of) => name('wrap', { foot: foot(of.foot) }), 'ring'),
    ...grouped(input.withheld, (of) => name(of.what), 'edge'),
    ...row(name('vet'), points(input.vet), ({ date, what }, y) =>
      rect(what === 'asked' ? 'vet' : 'up', x(date) - 5, y - 5, 10, 10),
    ),
    ...row(name('ran-up'), points(input.ranUp), ({ date }, y) =>
      path('up', `M${px(x(date))} ${px(y + 8)}v-15m-4.5 6l4.5-6l4.5 6`),
    ),
  ];
}

function drawVisit(x: number, y: number, kind: 'visit' | 'report' | 'missed'): string {
  if (kind === 'missed') return path('thin', `M${px(x - 4)} ${px(y - 4)}l8 8m0-8l-8 8`);
  const half = kind === 'visit' ? 8 : 4;
  return line(kind === 'visit' ? 'top' : 'thin', x, y - half, x, y + half);
}

/** Scores that would cover each other stand in lanes, one below the other. */
function gaitRow(gait: TimelineInput['gait'], name: string, x: (day: CalendarDay) => number): TimelineRow[] {
  if (gait.length === 0) return [];
  const places = gait.map(({ date }) => x(date));
  const lane = lanes(places.map((at) => ({ from: at - gaitRadius - 1.5, to: at + gaitRadius + 1.5 })));
  const height = (Math.max(...lane) + 1) * rowHeight;
  return [
    {
      name,
      height,
      draw: (middle) =>
        gait
          .map(({ score, block }, at) => {
            const y = middle - height / 2 + (lane[at]! + 0.5) * rowHeight;
            return drawScore(places[at]!, y, px(score), block);
          })
          .join(''),
    },
  ];
}

/** Filled off the block, hollow on it; where nobody knows, hollow with one side thick. */
function drawScore(x: number, y: number, score: string, block: 'on' | 'off' | 'unclear'): string {
  const side = block === 'unclear' ? path('half', `M${px(x)} ${px(y - 8)}a8 8 0 0 0 0 16`) : '';
  return (
    circle(block === 'off' ? 'solid' : 'ring', x, y, gaitRadius) +
    side +
    label(block === 'off' ? 'ni' : 't', x, y + 4, score)
  );
}

/** A bar over whole days; an end that is open or unknown has no edge but a fading of three strokes. */
function drawSpan(
  span: DaySpan,
  { to: end }: TimelineInput,
  y: number,
  x: (day: CalendarDay) => number,
  look: string,
  fill: string,
): string {
  const from = x(span.from);
  const last = span.to ?? end;
  const to = Math.max(from + 3, x(addDays(last, 1)));
  const bar = rect(look, from, y - 5.5, to - from, 11);
  const withHatch = look === 'edge' ? rect('', from, y - 5.5, to - from, 11, fill) + bar : bar;
  if (span.to !== undefined) return withHatch;
  return `${withHatch}${path('thin', `M${px(to + 2)} ${px(y - 4)}v8m3.5-8v8m3.5-8v8`)}`;
}

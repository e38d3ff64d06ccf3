import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { circle, label, line, path, px, rect } from './svg-mark.js';
import type { DaySpan, TimelineInput } from './timeline-input.js';

/** Where a day lies along the line, px. */
export type XOfDay = (day: CalendarDay) => number;

/** One mark of a row: the room it takes along the line, and how it is drawn round a middle. */
export interface Mark {
  readonly from: number;
  readonly to: number;
  readonly draw: (middleY: number) => string;
}

const halfBar = 5;

/** A tick on its day; a short one for a report, a cross for a visit missed. */
export function visitMark({ kind }: TimelineInput['visits'][number], x: number): string {
  return kind === 'missed'
    ? path('thin', `M${px(x - 4)} 6l8 8m0-8l-8 8`)
    : line(kind === 'visit' ? 'top' : 'thin', x, kind === 'visit' ? 2 : 6, x, kind === 'visit' ? 18 : 14);
}

/** Filled off the block, hollow on it; where nobody knows, hollow with half a ring round it. */
export function scoreMark({ score, block }: TimelineInput['gait'][number], x: number, y: number): string {
  return (
    circle(block === 'off' ? 'solid' : 'ring', x, y, 9) +
    (block === 'unclear' ? path('half', `M${px(x)} ${px(y - 12)}a12 12 0 0 0 0 24`) : '') +
    label(block === 'off' ? 'ni' : 't', x, y + 4, px(score))
  );
}

/** Filled for asked, hollow for answered. */
export function vetMark({ what }: TimelineInput['vet'][number], x: number, y: number): string {
  return rect(what === 'asked' ? 'vet' : 'up', x - 5, y - 5, 10, 10);
}

export function ranUpMark(_: TimelineInput['ranUp'][number], x: number, y: number): string {
  return path('up', `M${px(x)} ${px(y + 7)}v-13m-4.5 5l4.5-5l4.5 5`);
}

/** A bar over whole days; an end that is open or not known runs out in three strokes. */
export function spanMark(span: DaySpan, lastDay: CalendarDay, x: XOfDay, look: string, fill: string): Mark {
  const from = x(span.from);
  const to = Math.max(from + 4, x(addDays(span.to ?? lastDay, 1)));
  const runsOut = span.to === undefined || span.endUnknown === true;
  return {
    from,
    to: to + (runsOut ? 11 : 0),
    draw: (y) =>
      (look === 'edge' ? rect('', from, y - halfBar, to - from - 1, 2 * halfBar, fill) : '') +
      rect(look, from, y - halfBar, to - from - 1, 2 * halfBar) +
      (runsOut ? path('thin', `M${px(to + 2.5)} ${px(y - 4)}v8m3.5-8v8m3.5-8v8`) : ''),
  };
}

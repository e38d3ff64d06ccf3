import type { CalendarDay } from '../record/calendar-day.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { FigureTable } from './figure.js';
import { placeInWords } from '../words/lesion-in-words.js';
import { px } from './svg-mark.js';
import type { DaySpan, TimelineInput } from './timeline-input.js';

/** Everything on the line as rows of a table, by day: one row a day, and one for each span. */
export function timelineTable(input: TimelineInput, words: Words): FigureTable {
  const say = (key: string, values = {}) => words.say(`figure.time.${key}`, values);
  return {
    caption: say('caption'),
    columns: ['from', 'to', 'what'].map((key) => say(`column.${key}`)),
    rows: byDay(happenings(input, words)).map(({ from, to, text }) => [dayInWords(words, from), to, text]),
  };
}

/** How long, how many visits, and how she last walked; the table has the rest. */
export function timelineDescription(input: TimelineInput, words: Words): string {
  const span = words.say('figure.time.description.span', {
    from: dayInWords(words, input.from),
    to: dayInWords(words, input.to),
  });
  const visits = words.say('figure.time.description.visits', { count: input.visits.length });
  const last = input.gait.at(-1);
  const walk =
    last &&
    words.say(`figure.time.description.last-${last.block}`, {
      date: dayInWords(words, last.date),
      score: px(last.score),
    });
  return [span, visits, walk ?? ''].filter(Boolean).join(' ');
}

/** What the marks mean: only those that occur. */
export function timelineNotes(input: TimelineInput, words: Words): string[] {
  const say = (key: string, values = {}) => words.say(`figure.time.note.${key}`, values);
  return [
    input.visits.length ? say('visit') : '',
    input.gait.length ? say('gait', { scale: input.gaitScale ?? '' }) : '',
    input.gait.some(({ block }) => block === 'unclear') ? say('unclear') : '',
    input.blocks.length ? say('block') : '',
    input.wraps.length ? say('wrap') : '',
    input.withheld.length ? say('withheld') : '',
    input.vet.length ? say('vet') : '',
    input.ranUp.length ? say('ran-up') : '',
  ].filter(Boolean);
}

interface Happening {
  readonly from: CalendarDay;
  readonly to: string;
  readonly text: string;
}

function happenings(input: TimelineInput, words: Words): Happening[] {
  const say = (key: string, values = {}) => words.say(`figure.time.what.${key}`, values);
  const span = (of: DaySpan, text: string): Happening => ({ from: of.from, to: endInWords(of, words), text });
  return [
    ...input.visits.map(({ date, kind }) => point(date, say(kind))),
    ...input.gait.map(({ date, score, block }) => point(date, say(`gait-${block}`, { score: px(score) }))),
    ...input.blocks.map((of) => span(of, say('block', { place: placeInWords(words, of.foot, of.claw) }))),
    ...input.wraps.map((of) => span(of, say('wrap', { foot: placeInWords(words, of.foot) }))),
    ...input.withheld.map((of) => span(of, say(of.what))),
    ...input.vet.map(({ date, what }) => point(date, say(what))),
    ...input.ranUp.map(({ date, lesion }) => point(date, say('ran-up', { lesion }))),
  ].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
}

/** What happened on one day stands in one row; what lasted has its own. */
function byDay(all: readonly Happening[]): Happening[] {
  const points = new Map<CalendarDay, string[]>();
  for (const { from, to, text } of all)
    if (to === '') {
      const sameDay = points.get(from);
      if (sameDay) sameDay.push(text);
      else points.set(from, [text]);
    }
  return all.flatMap((one) => {
    if (one.to !== '') return [one];
    const sameDay = points.get(one.from);
    points.delete(one.from);
    return sameDay ? [{ ...one, text: sameDay.join('; ') }] : [];
  });
}

function endInWords({ to, endUnknown }: DaySpan, words: Words): string {
  if (to !== undefined) return dayInWords(words, to);
  return words.say(endUnknown ? 'figure.time.end-unknown' : 'figure.time.still');
}

function point(date: CalendarDay, text: string): Happening {
  return { from: date, to: '', text };
}

import { largest } from '../statistics/estimate.js';
import type { Words } from '../reference/words.js';
import { type Figure, figureOf, hatch } from './figure.js';
import { label, lines, px } from './svg-mark.js';
import { textWidth } from './wrap-text.js';
import { type TimelineInput, type DaySpan, timelineRows } from './timeline-rows.js';
import { addDays, dayNumber, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { dayInWords, paragraph, placeInWords } from '../words/day-and-place.js';

/** Months between ticks: the first step whose names do not meet. */
const steps = [1, 2, 3, 6, 12, 24, 60] as const;

/** `left` is the beginning of the first day, `right` the end of the last. */
export function timeScale(from: CalendarDay, to: CalendarDay, left: number, right: number, words: Words) {
  const start = dayNumber(from);
  const pxPerDay = (right - left) / Math.max(1, daysBetween(from, addDays(to, 1)));
  const x = (day: CalendarDay) => Math.min(right, Math.max(left, left + (dayNumber(day) - start) * pxPerDay));
  for (const step of steps) {
    const ticks = firstsOfMonths(from, to, step).map((day, at) => {
      const text = tickInWords(day, at === 0, words);
      return { x: x(day), text, half: textWidth(text, 11) / 2 };
    });
    const meet = ticks.some(
      ({ x: at, half }, of) => of > 0 && at - ticks[of - 1]!.x <= half + ticks[of - 1]!.half + 6,
    );
    if (!meet) return { x, ticks: ticks.filter((tick) => tick.x + tick.half <= right) };
  }
  return { x, ticks: [] };
}

/** The first tick and each January carry their year. */
function tickInWords(day: CalendarDay, first: boolean, words: Words): string {
  const month = words.say(`calendar.short-month.${day.slice(5, 7)}`);
  return first || day.slice(5, 7) === '01'
    ? words.say('figure.month-year', { month, year: day.slice(0, 4) })
    : month;
}

function firstsOfMonths(from: CalendarDay, to: CalendarDay, step: number): CalendarDay[] {
  const days: CalendarDay[] = [];
  const first = Number(from.slice(0, 4)) * 12;
  const last = Number(to.slice(0, 4)) * 12 + 11;
  for (let month = Math.ceil(first / step) * step; month <= last; month += step) {
    const day = `${String(Math.floor(month / 12)).padStart(4, '0')}-${String((month % 12) + 1).padStart(2, '0')}-01`;
    if (day >= from && day <= to) days.push(day);
  }
  return days;
}

const topY = 4;

/** One animal over time, to scale: visits, walk, blocks, wraps, withheld days, the vet, run-ups. Only rows that have something. */
export function visitTimeline(input: TimelineInput, words: Words, width = 660): Figure {
  const say = (key: string) => words.say(`figure.time.${key}`);
  const fill = hatch(input.id, 'open');
  const rows = timelineRows(input, words, fill.fill);
  const names = rows.map(({ name }) => textWidth(name, 12));
  const left = Math.ceil(largest(names, 40)) + 14;
  const scale = timeScale(input.from, input.to, left, width - 14, words);
  let y = topY;
  const rules: [number, number, number, number][] = [];
  const drawn = rows.map(({ name, lay }) => {
    const { height, middle, draw } = lay(scale.x);
    const top = y;
    y += height;
    rules.push([left - 6, top + middle, width - 6, top + middle]);
    return label('t', left - 12, top + height / 2 + 4, name, 'end') + draw(top);
  });
  const ticks = scale.ticks.map((tick) => label('s', tick.x, y + 16, tick.text));
  for (const { x } of scale.ticks) rules.push([x, topY, x, y + 3]);
  const body = lines('rule', rules) + ticks.join('') + drawn.join('');
  return figureOf(
    {
      id: input.id,
      width,
      height: y + 22,
      title: say('title'),
      description: timelineDescription(input, words),
      defs: body.includes(fill.fill) ? fill.def : '',
      body,
    },
    {
      notes: timelineNotes(input, words),
      /** Everything on the line by day: one row a day, and one for each span. */
      table: {
        caption: say('caption'),
        columns: ['from', 'to', 'what'].map((key) => say(`column.${key}`)),
        rows: byDay(happenings(input, words), words).map(({ from, to, text }) => [
          dayInWords(words, from),
          to,
          text,
        ]),
      },
    },
  );
}

/** How long, how many visits, and how she last walked; the table has the rest. */
function timelineDescription(input: TimelineInput, words: Words): string {
  const say = (key: string, values = {}) => words.say(`figure.time.description.${key}`, values);
  const last = input.gait.at(-1);
  return paragraph(
    say('span', { from: dayInWords(words, input.from), to: dayInWords(words, input.to) }),
    say('visits', { count: input.visits.length }),
    last && say(`last-${last.block}`, { date: dayInWords(words, last.date), score: px(last.score) }),
  );
}

/** What the marks mean that run beneath another drawing: those whose row does not say it by its name. */
export function beneathNotes(input: TimelineInput | undefined, words: Words): string[] {
  return input
    ? timelineNotes({ ...input, visits: [], blocks: [], wraps: [], withheld: [], ranUp: [] }, words)
    : [];
}

/** What the marks mean: only those that occur. */
function timelineNotes(input: TimelineInput, words: Words): string[] {
  const say = (occurs: boolean, key: string) =>
    occurs ? words.say(`figure.time.note.${key}`, { scale: input.gaitScale ?? '' }) : '';
  return [
    say(input.visits.length > 0, 'visit'),
    say(input.gait.length > 0, 'gait'),
    say(
      input.gait.some(({ block }) => block === 'unclear'),
      'unclear',
    ),
    say(input.blocks.length > 0, 'block'),
    say(input.wraps.length > 0, 'wrap'),
    say(input.withheld.length > 0, 'withheld'),
    say(input.vet.length > 0, 'vet'),
    say(input.ranUp.length > 0, 'ran-up'),
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

/** What happened on one day is in one row; what lasted has its own. */
function byDay(all: readonly Happening[], words: Words): Happening[] {
  const points = all.filter(({ to }) => to === '');
  return all.flatMap((one) => {
    if (one.to !== '') return [one];
    const sameDay = points.filter(({ from }) => from === one.from);
    return sameDay[0] === one ? [{ ...one, text: words.semicolons(sameDay.map(({ text }) => text)) }] : [];
  });
}

function endInWords({ to, endUnknown }: DaySpan, words: Words): string {
  if (to !== undefined) return dayInWords(words, to);
  return words.say(endUnknown ? 'figure.time.end-unknown' : 'figure.time.still');
}

function point(date: CalendarDay, text: string): Happening {
  return { from: date, to: '', text };
}

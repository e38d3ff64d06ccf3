import type { AnimalGrowth, LesionGrowth, OutRange } from '../growth/animal-growth.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { dayInWords, mm, paragraph, placeInWords } from './day-and-place.js';
import type { Words } from '../reference/words.js';
import type { Tool } from '../record/words.js';
import { given } from '../record/given.js';
import type { Animal } from '../record/animal.js';
import { nameOf } from './compose-standing.js';
import type { ReadingWorthTaking } from '../growth/worth-measuring/worth-measuring.js';

/** A range of days, and the reading it was worked out from. */
interface RangeFrom {
  readonly from: CalendarDay;
  readonly out: OutRange<CalendarDay>;
}

/**
 * A range in a sentence, of a gap in the wall (`standing.out`) or of an ulcer (`closing.out`).
 *
 * A day that has passed is never promised: a range that lies behind is read as what the readings said.
 *
 * Checked: tests/words/situations.test.ts
 */
export function rangeInWords(
  words: Words,
  area: 'standing.out' | 'closing.out',
  { from, out }: RangeFrom,
  today: CalendarDay,
): string {
  return words.say(`${area}.${variantOf(out, today)}`, daysInWords(words, { from, ...out }));
}

function variantOf({ early, best, late }: OutRange<CalendarDay>, today: CalendarDay): string {
  if (early === null) return 'none-in-five';
  if (best === null) return 'best-open';
  if (late === null) return 'late-open';
  if (late < today) return 'past';
  if (early > today) return 'range';
  return best > today ? 'begun' : 'begun-best-past';
}

/** The same where it hangs on something not known yet, such as whether sound horn follows: without a most likely day. */
export function rangeIfInWords(
  words: Words,
  key: 'standing.out.if-sound' | 'standing.out.if-ran-up' | 'closing.out.if-opening-up',
  { from, out }: RangeFrom,
  today: CalendarDay,
): string {
  const { early, late } = out;
  const area = key.slice(0, key.lastIndexOf('.'));
  const days = daysInWords(words, { from, ...out });
  if (early === null) return words.say(`${area}.none-in-five`, days);
  if (late === null) return words.say(`${key}-open`, days);
  return words.say(`${key}${late < today ? '-past' : early <= today ? '-begun' : ''}`, days);
}

/** Those days that there are, worded, by their names. */
function daysInWords(
  words: Words,
  days: Readonly<Record<string, CalendarDay | null>>,
): Record<string, string> {
  return Object.fromEntries(
    Object.entries(days).flatMap(([key, day]) => (day === null ? [] : [[key, dayInWords(words, day)]])),
  );
}

/** The tools some readings were taken with, each once. @example toolsInWords(words, [{ tool: 'ruler' }, { tool: 'tape' }, { tool: 'ruler' }]) // → 'ruler and tape' */
export function toolsInWords(words: Words, readings: readonly { readonly tool?: Tool }[]): string {
  const tools = [...new Set(readings.map(({ tool }) => tool))].map((tool) =>
    tool ? words.say(`vocabulary.tool.${tool}`) : words.say('standing.basis.no-tool'),
  );
  return tools.reduce((first, second) => words.say('standing.basis.tools-two', { first, second }));
}

/**
 * When a gap should be out, in a sentence, or why there is no date; empty where the lesion's own sentence says it
 * all (healed, joined).
 *
 * Checked: tests/words/situations.test.ts
 */
export function outSentence(words: Words, line: LesionGrowth, today: CalendarDay): string {
  const { forecast } = line;
  if (forecast.outcome === 'range') {
    return forecast.ifSoundHornFollows
      ? rangeIfInWords(words, 'standing.out.if-sound', forecast, today)
      : rangeInWords(words, 'standing.out', forecast, today);
  }
  const { why, ifRanUp: { from, out } = {} } = forecast;
  const key = `standing.no-date.${why === 'held' && line.heldNow?.sure === false ? 'may-be-held' : why}`;
  const reason = words.has(key) ? words.say(key) : '';
  const ifRanUp = from && out && rangeIfInWords(words, 'standing.out.if-ran-up', { from, out }, today);
  return paragraph(reason, ifRanUp);
}

/**
 * What a date is based on: how many readings, which tool, whose wall length, what prior, and that it is no diagnosis.
 * Empty where there is no range to rest.
 */
export function basisSentence(words: Words, growth: AnimalGrowth, line: LesionGrowth): string {
  const { forecast, readings } = line;
  if (forecast.outcome === 'none' && !forecast.ifRanUp?.out) return '';
  const used = readings.filter(({ unused, topMm }) => !unused && topMm !== undefined);
  return paragraph(
    words.say('standing.basis.readings', {
      count: used.length,
      tools: toolsInWords(words, used),
      wall: wallOf(words, line),
      prior: priorInWords(words, growth),
    }),
    words.say('standing.basis.limits'),
  );
}

/** Where the sums start: published rates, and the other cows that have taught more. */
function priorInWords(words: Words, { prior: { learnedFrom } }: Pick<AnimalGrowth, 'prior'>): string {
  if (learnedFrom === undefined) return words.say('standing.basis.prior-published');
  const { cows, upTo } = learnedFrom;
  return words.say('standing.basis.prior-pooled', { count: cows, day: dayInWords(words, upTo) });
}

/**
 * What the top should read on a later day, and below what it may have run up; empty where nothing is expected, where
 * it is held, and where it should be out by then, of a gap read by eye alone also where it may be.
 */
export function nextReadingSentence(words: Words, line: LesionGrowth, day: CalendarDay): string {
  const next = line.nextReading(day);
  if (!next || line.heldNow || next.lowMm >= line.wall.mm) return '';
  const { forecast } = line;
  const mayBeOut = next.highMm >= line.wall.mm;
  if (mayBeOut && forecast.outcome === 'none' && forecast.why === 'by-eye') return '';
  const key = mayBeOut ? 'next-reading-or-out' : 'next-reading';
  const sums = forecast.outcome === 'range' ? forecast : forecast.sums;
  const ifSound = sums?.ifSoundHornFollows ? '-if-sound' : '';
  const values = {
    day: dayInWords(words, next.date),
    low: Math.max(0, Math.round(next.lowMm)),
    high: Math.round(next.highMm),
    alarm: Math.floor(next.alarmMm),
  };
  return paragraph(
    words.say(`standing.${key}${ifSound}`, values),
    next.alarmMm < 1 ? undefined : words.say('standing.next-alarm', values),
  );
}

function wallOf(words: Words, { wall }: LesionGrowth): string {
  const say = (key: string, values = {}) =>
    words.say(`standing.basis.wall-${key}`, { mm: mm(wall.mm), ...values });
  if (wall.source !== 'measured' || !wall.measured)
    return say(wall.likelyTooLong ? 'reference-long' : 'reference');
  const { beside, date } = wall.measured;
  return say(beside ? 'beside' : 'measured', { day: dayInWords(words, date) });
}

/**
 * Which one reading at the next visit would narrow a date most, and by how much.
 *
 * Checked: tests/words/situations.test.ts
 */
export function worthSentence(
  words: Words,
  animal: Animal,
  growth: Pick<AnimalGrowth, 'lesions'>,
  reading: ReadingWorthTaking,
): string {
  const { what, of, lesion, tool, foot, claw, readAgainOn, nowWeeks, thenWeeks } = reading;
  const dated = growth.lesions.filter(({ forecast }) => forecast.outcome === 'range');
  const key = what === 'top' && of !== lesion ? 'top-of-other' : what;
  const name = (gap: string) => nameOf(words, animal, gap);
  return words.say(`worth.${key}`, {
    tool: words.say(`vocabulary.tool.${tool}`),
    date: dated.length === 1 ? words.say('worth.this') : words.say('worth.of', { gap: name(lesion) }),
    now: Math.round(nowWeeks),
    after: Math.round(thenWeeks),
    place: placeInWords(words, foot, claw),
    ...given({
      of: of === undefined || what === 'mark' ? of : name(of),
      again: readAgainOn && dayInWords(words, readAgainOn),
    }),
  });
}

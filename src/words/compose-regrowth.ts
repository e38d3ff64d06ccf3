import type { AnimalGrowth, CaseForecast, LesionGrowth } from '../growth/animal-growth.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { nameOf } from './compose-standing.js';
import { dayInWords } from './day-in-words.js';
import { mm, paragraph } from './number-in-words.js';
import { daysInWords, rangeIfInWords, rangeInWords } from './range-in-words.js';
import { toolsInWords } from './tools-in-words.js';
import type { Words } from './words.js';

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
 * What a date rests on: how many readings, which tool, whose wall length, what prior, and that it is no diagnosis.
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
export function priorInWords(words: Words, { prior: { learnedFrom } }: Pick<AnimalGrowth, 'prior'>): string {
  if (learnedFrom === undefined) return words.say('standing.basis.prior-published');
  const { cows, upTo } = learnedFrom;
  return words.say('standing.basis.prior-archive', { count: cows, day: dayInWords(words, upTo) });
}

/** When the last of her gaps should be out, or why none is said; empty with one gap, whose own date says it. */
export function caseDateSentence(
  words: Words,
  animal: Animal,
  growth: AnimalGrowth,
  today: CalendarDay,
): string {
  const standing = growth.lesions.filter(
    ({ forecast }) =>
      forecast.outcome === 'range' || (forecast.why !== 'healed' && forecast.why !== 'joined'),
  );
  if (standing.length < 2) return '';
  return caseDate(words, animal, growth.case, today);
}

function caseDate(words: Words, animal: Animal, forecast: CaseForecast, today: CalendarDay): string {
  if (forecast.outcome === 'none') {
    const because = forecast.because.filter(({ why }) => why !== 'healed' && why !== 'joined');
    if (because.length === 0) return '';
    return words.say('standing.whole.none', {
      lesions: because.map(({ lesion }) => nameOf(words, animal, lesion)).join('; '),
    });
  }
  const { early, best, late } = forecast.out;
  const say = (key: string, days: Record<string, CalendarDay>) =>
    words.say(`standing.whole.${key}`, daysInWords(words, days));
  if (early === null) return say('none-in-five', {});
  if (late === null || best === null) return say('open-end', { early });
  if (forecast.ifSoundHornFollows) return say('if-sound', { early, late });
  if (late < today) return say('past', { late });
  return early > today ? say('range', { early, best, late }) : say('begun', { late });
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
  if (wall.source === 'measured' && wall.measured)
    return words.say(`standing.basis.wall-${wall.measured.beside ? 'beside' : 'measured'}`, {
      mm: mm(wall.mm),
      day: dayInWords(words, wall.measured.date),
    });
  const key = wall.likelyTooLong ? 'wall-reference-long' : 'wall-reference';
  return words.say(`standing.basis.${key}`, { mm: mm(wall.mm) });
}

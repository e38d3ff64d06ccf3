import type { CaseFigures } from '../herd/farm-figures.js';
import type { LesionRates } from '../herd/lesion-rates.js';
import type { Recurrence } from '../herd/recurrence.js';
import type { CaseTime, TimeToEvent, WalkMark } from '../herd/time-to-event.js';
import type { Spread } from '../herd/printed-figure.js';
import { herdNumbers, shortSource } from '../reference/numbers.js';
import type { Estimate } from '../statistics/estimate.js';
import { dayInWords, mm, paragraph } from './day-and-place.js';
import { boundsInWords, levelPercent, percent } from './percent.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Values, Words } from '../reference/words.js';

/** Counts said as things, such as: 1 animal. */
function countOf(
  words: Words,
  what: 'lesions' | 'animals' | 'runs' | 'recurrence.places',
  count: number,
): string {
  return words.say(`herd.${what}`, { count });
}

/**
 * How many cases, of how many animals, and in how many it was seen to have come.
 * @example timesSentence(words, { count: 5, animals: 4, come: 3 }, 'healed') // → '5 lesions in 4 animals; 3 seen healed'
 */
export function timesSentence(
  words: Words,
  { count, animals, come }: TimeToEvent,
  what: 'healed' | WalkMark,
): string {
  const things = what === 'healed' ? 'lesions' : 'runs';
  return words.say(what === 'healed' ? 'herd.times.healed.count' : `herd.times.walked.${what}`, {
    [things]: countOf(words, things, count),
    animals: countOf(words, 'animals', animals),
    come,
  });
}

/**
 * When it came, a line each: by when half had it and the share by each day, every one with its bounds and the number it is
 * estimated from, and where the curve ends. Where no share that has come may be printed each case by itself; of cases
 * that are not ours to list, that there is no figure.
 *
 * Checked: tests/words/herd-sentences.test.ts
 */
export function whenLines(words: Words, { count, cases, curve }: TimeToEvent): string[] {
  const listed = cases.map((one) => caseLine(words, one));
  if (!curve) return listed.length > 0 || count === 0 ? listed : [words.say('herd.times.few')];
  const { half, boxes, bounds, knownTo } = curve;
  const lineOf = (day: number, share: number) => {
    const { lower: low, upper: high } = bounds.find((one) => one.day === day)!;
    return words.say('herd.times.by', {
      day,
      percent: percent(share),
      bounds: boundsInWords(words, { low, high }),
      count,
    });
  };
  let come = 0;
  const steps = boxes.map(({ by, mass }) => lineOf(by, (come += mass)));
  return [
    ...(half ? [words.say('herd.times.half', { ...half, level: levelPercent })] : []),
    ...(steps.length > 0 ? steps : [lineOf(knownTo, 0)]),
    words.say('herd.times.cut-off', { day: knownTo }),
    ...(steps.length > 0 ? [] : listed),
  ];
}

function caseLine(words: Words, { animal, days: { after, by } }: CaseTime): string {
  const how = by === Infinity ? 'not-yet' : after === by ? 'exact' : 'between';
  return words.say(`herd.times.case.${how}`, { animal, after, by });
}

/** What came back, lesions and dermatitis, each count with its whole; of all farms together, with the day they are pooled up to. */
export function recurrenceSentences(
  words: Words,
  { recurrence, dermatitis }: Pick<CaseFigures, 'recurrence' | 'dermatitis'>,
  upTo?: CalendarDay,
): string[] {
  return [cameBack(words, 'lesions', recurrence, upTo), cameBack(words, 'dermatitis', dermatitis, upTo)];
}

function cameBack(
  words: Words,
  key: 'lesions' | 'dermatitis',
  { settled, seenAgain, cameBack: back, daysBetween }: Recurrence,
  upTo: CalendarDay | undefined,
): string {
  const things = key === 'lesions' ? 'lesions' : 'recurrence.places';
  const variant = settled === 0 ? '-none' : seenAgain === 0 ? '-unseen' : '';
  return paragraph(
    words.say(`herd.recurrence${upTo ? '-everywhere' : ''}.${key}${variant}`, {
      day: upTo ? dayInWords(words, upTo) : '',
      told: countOf(words, things, settled),
      settled,
      seenAgain,
      cameBack: back,
    }),
    daysBetween.length > 0
      ? words.say('herd.recurrence.between', { days: words.commas(daysBetween) })
      : undefined,
  );
}

/** The caption of the rates: the time, its cow-years, how many lesions are in them. */
export function ratesSentence(words: Words, { from, to, all }: LesionRates): string {
  const isKnown = all.cowYears > 0;
  return words.say(isKnown ? 'herd.rates.lead' : 'herd.rates.lead-unknown', {
    from: dayInWords(words, from),
    to: dayInWords(words, to),
    cowYears: mm(all.cowYears),
    counted: all.counted,
    lesions: isKnown ? all.lesions : countOf(words, 'lesions', all.lesions),
  });
}

/** @example rateInWords(words, { value: 1.5, low: 0.31, high: 4.39 }) // → '1.5 (0.3 to 4.4)' */
export function rateInWords(words: Words, { value, low, high }: Estimate): string {
  return words.say('herd.rates.of', { value: mm(value), low: mm(low), high: mm(high) });
}

/** The median with its bounds and the most, where it may be printed; else each. @example spreadInWords(words, { each: [1, 2, 2, 7] }) // → '1, 2, 2, 7' */
export function spreadInWords(words: Words, { each, median }: Spread): string {
  if (!median) return words.commas(each.map(mm));
  const { value, low, high } = median;
  const values = { value: mm(value), low: mm(low), high: mm(high), most: mm(each.at(-1)!) };
  return words.say('herd.median', { ...values, level: levelPercent });
}

/** Visits and blocks a case, never without how many cases. */
export function workSentences(words: Words, work: CaseFigures['work']): string[] {
  return (['ended', 'running'] as const).flatMap((key) => {
    const one = work[key];
    if (!one) return [];
    const runs = countOf(words, 'runs', one.visits.each.length);
    const [visits, blocks] = [spreadInWords(words, one.visits), spreadInWords(words, one.blocks)];
    return [words.say(`herd.lame.work.${key}`, { runs, visits, blocks })];
  });
}

/** What trials found in groups of cows, as the case for early lifting; the same on every farm, never one animal's outlook. */
export function earlyLiftingSentences(words: Words): string[] {
  const { longLame, newlyLameTrim, newlyLameBlock, newlyLamePainRelief, newlyLameAll, usualDelay } =
    herdNumbers.trials;
  const say = (key: string, { address }: typeof longLame, values: Values) =>
    words.say(`herd.early.${key}`, { ...values, source: shortSource(address.source[0]!) });
  return [
    say('long', longLame, { percent: longLame.value }),
    say('new', newlyLameTrim, {
      trim: newlyLameTrim.value,
      block: newlyLameBlock.value,
      pain: newlyLamePainRelief.value,
      all: newlyLameAll.value,
    }),
    say('delay', usualDelay, { days: usualDelay.value }),
    words.say('herd.early.limits'),
  ];
}

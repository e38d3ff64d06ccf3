import type { CaseFigures } from '../herd/farm-figures.js';
import type { LesionRates } from '../herd/lesion-rates.js';
import type { Recurrence } from '../herd/recurrence.js';
import type { CaseTime, TimeToEvent } from '../herd/time-to-event.js';
import type { WorkPerCase } from '../herd/work-per-case.js';
import { herdNumbers } from '../reference/herd-numbers.js';
import { shortSource } from '../reference/sources.js';
import type { Estimate } from '../statistics/estimate.js';
import type { Interval } from '../statistics/interval.js';
import { dayInWords } from './day-in-words.js';
import { mm, paragraph } from './number-in-words.js';
import { percent } from './percent.js';
import type { Words } from './words.js';

/** Counts said as things, `herd.lesions`, `herd.animals` …: @example countOf(words, 'animals', 1) // → '1 animal' */
function countOf(
  words: Words,
  what: 'lesions' | 'animals' | 'runs' | 'recurrence.places',
  count: number,
): string {
  return words.say(`herd.${what}`, { count });
}

/**
 * How many cases, of how many animals, and in how many it was seen to have come.
 * @example timesSentence(words, kind, 'healed') // → '5 lesions in 4 animals; 3 seen healed'
 */
export function timesSentence(
  words: Words,
  { count, animals, come }: TimeToEvent,
  what: 'healed' | 'walked',
): string {
  const things = what === 'healed' ? 'lesions' : 'runs';
  return words.say(what === 'healed' ? 'herd.times.healed.count' : 'herd.times.walked.count', {
    [things]: countOf(words, things, count),
    animals: countOf(words, 'animals', animals),
    come,
  });
}

/**
 * When it came, a line each: of enough cases by when half had it and the share by each day the curve is known, every share with the
 * number it is estimated from, and where too few were followed further; of few each case by itself; of few that are
 * not ours to list, that there is no figure.
 *
 * Checked: tests/words/herd-sentences.test.ts
 */
export function whenLines(words: Words, { count, cases, curve }: TimeToEvent): string[] {
  const few = herdNumbers.figures.fewCases.value;
  if (!curve) {
    if (cases.length > 0) return cases.map((one) => caseLine(words, one));
    return count === 0 ? [] : [words.say('herd.times.few', { few })];
  }
  const { half, boxes, knownTo } = curve;
  let come = 0;
  const steps = boxes.flatMap(({ by, mass }) => {
    come += mass;
    return by === Infinity ? [] : [words.say('herd.times.by', { day: by, percent: percent(come), count })];
  });
  return [
    ...(half ? [halfLine(words, half)] : []),
    ...(steps.length > 0 ? steps : [words.say('herd.times.none-by', { day: knownTo, count })]),
    words.say('herd.times.cut-off', { day: Math.max(knownTo, lastFinite(boxes)), few }),
  ];
}

function halfLine(words: Words, { after, by }: Interval): string {
  const key = by === Infinity ? 'half-not-reached' : after === by ? 'half-exact' : 'half';
  return words.say(`herd.times.${key}`, { after, by });
}

/** A box that begins while enough are followed is told to its end. */
function lastFinite(boxes: readonly Interval[]): number {
  return boxes.findLast(({ by }) => by !== Infinity)?.by ?? 0;
}

function caseLine(words: Words, { animal, days: { after, by } }: CaseTime): string {
  const how = by === Infinity ? 'not-yet' : after === by ? 'exact' : 'between';
  return words.say(`herd.times.case.${how}`, { animal, after, by });
}

/** What came back, lesions and dermatitis, each count with its whole. */
export function recurrenceSentences(
  words: Words,
  { recurrence, dermatitis }: Pick<CaseFigures, 'recurrence' | 'dermatitis'>,
): string[] {
  return [
    cameBack(words, 'lesions', 'lesions', recurrence),
    cameBack(words, 'dermatitis', 'recurrence.places', dermatitis),
  ];
}

function cameBack(
  words: Words,
  key: 'lesions' | 'dermatitis',
  things: 'lesions' | 'recurrence.places',
  { settled, seenAgain, cameBack: back, daysBetween }: Recurrence,
): string {
  const variant = settled === 0 ? '-none' : seenAgain === 0 ? '-unseen' : '';
  return paragraph(
    words.say(`herd.recurrence.${key}${variant}`, {
      told: countOf(words, things, settled),
      settled,
      seenAgain,
      cameBack: back,
    }),
    daysBetween.length > 0
      ? words.say('herd.recurrence.between', { days: daysBetween.join(', ') })
      : undefined,
  );
}

/** The caption of the rates: the time, its cow-years, how many lesions are in them. */
export function ratesSentence(words: Words, { from, to, all }: LesionRates): string {
  return words.say(all.per100 ? 'herd.rates.lead' : 'herd.rates.lead-unknown', {
    from: dayInWords(words, from),
    to: dayInWords(words, to),
    cowYears: mm(all.cowYears),
    counted: all.counted,
    lesions: all.per100 ? all.lesions : countOf(words, 'lesions', all.lesions),
  });
}

/** @example rateInWords(words, { value: 1.5, low: 0.31, high: 4.39 }) // → '1.5 (0.3 to 4.4)' */
export function rateInWords(words: Words, { value, low, high }: Estimate): string {
  return words.say('herd.rates.of', { value: mm(value), low: mm(low), high: mm(high) });
}

/** Visits and blocks a case: mean, median and most, never without how many cases. */
export function workSentences(words: Words, work: CaseFigures['work']): string[] {
  const say = (key: 'ended' | 'running', one: WorkPerCase | undefined) =>
    one
      ? [
          words.say(`herd.lame.work.${key}`, {
            runs: countOf(words, 'runs', one.visits.cases),
            visits: mm(one.visits.median),
            visitsMean: mm(one.visits.mean),
            visitsMost: one.visits.most,
            blocks: mm(one.blocks.median),
            blocksMean: mm(one.blocks.mean),
            blocksMost: one.blocks.most,
          }),
        ]
      : [];
  return [...say('ended', work.ended), ...say('running', work.running)];
}

/** What trials found in groups of cows, as the case for early lifting; the same on every farm, never one animal's outlook. */
export function earlyLiftingSentences(words: Words): string[] {
  const { longLame, newlyLameTrim, newlyLameBlock, newlyLamePainRelief, newlyLameAll, usualDelay } =
    herdNumbers.trials;
  return [
    words.say('herd.early.long', {
      percent: longLame.value,
      source: shortSource(longLame.address.source[0]!),
    }),
    words.say('herd.early.new', {
      trim: newlyLameTrim.value,
      block: newlyLameBlock.value,
      pain: newlyLamePainRelief.value,
      all: newlyLameAll.value,
      source: shortSource(newlyLameTrim.address.source[0]!),
    }),
    words.say('herd.early.delay', {
      days: usualDelay.value,
      source: shortSource(usualDelay.address.source[0]!),
    }),
    words.say('herd.early.limits'),
  ];
}

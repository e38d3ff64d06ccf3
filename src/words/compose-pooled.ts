import { type Pooled, howGood, type HowGood } from '../herd/pooled-on.js';
import type { WhatItLearned } from '../growth/learning/priors-for.js';
import { printed } from '../herd/printed-figure.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { spreadInWords } from './compose-herd.js';
import { dayInWords, paragraph, thousands } from './day-and-place.js';
import { boundsInWords, percent } from './percent.js';
import type { Words } from '../reference/words.js';
import { largest, smallest } from '../statistics/estimate.js';
import type { StudyResults } from '../reference/study-results.js';

/**
 * What the cows on file have taught of growth: how fast such cows grow beside the published rates, with the range,
 * from how many, up to which day. Of few cows it says that it has learned little, of one no figure is given.
 *
 * Checked: tests/words/pooled-sentences.test.ts
 */
export function learnedSentence(words: Words, { mean, low, high, cows, upTo }: WhatItLearned): string {
  const day = dayInWords(words, upTo);
  if (cows === 0) return words.say('pooled.learned.none', { day });
  if (!printed({ low, high }, cows)) return words.say('pooled.learned.few', { cows, day });
  const values = { count: cows, day, mean: percent(mean), low: percent(low), high: percent(high) };
  return paragraph(
    words.say('pooled.learned.said', values),
    cows < growthNumbers.trackRecord.few.value ? words.say('pooled.little') : undefined,
  );
}

/** How good the dates have been: the share in the range and the days off, over how many gaps; of few gaps only how many. */
export function trackRecordSentence(words: Words, { record, upTo }: Pick<Pooled, 'record' | 'upTo'>): string {
  const day = dayInWords(words, upTo);
  const all = howGood(record.gaps);
  if (all.gaps === 0) return words.say('pooled.record.none', { day });
  if (!all.inRange || !all.daysOff) return words.say('pooled.record.few', { count: all.gaps, day });
  const restarted = howGood(record.gaps.filter((gap) => gap.restarted));
  const share = ({ value, ...bounds }: NonNullable<HowGood['inRange']>) => ({
    share: percent(value),
    bounds: boundsInWords(words, bounds),
  });
  return paragraph(
    words.say('pooled.record.said', {
      count: all.gaps,
      day,
      ...share(all.inRange),
      days: spreadInWords(words, all.daysOff),
    }),
    restarted.inRange &&
      words.say('pooled.record.restarted', { count: restarted.gaps, ...share(restarted.inRange) }),
  );
}

/**
 * How far the dates can be trusted, from the study on cows drawn at random: how often the range held, how often a run-up is
 * raised and a sound reading cried, and what spoils a date most. Every number is the study's own.
 *
 * Checked: tests/words/pooled-sentences.test.ts
 */
export function studySentences(words: Words, study: StudyResults): string[] {
  const covered = study.sound
    .filter(({ tool }) => tool !== 'eye')
    .flatMap(({ byReadings }) => byReadings.map((one) => one.covered));
  const worst = study.unlike.toSorted((a, b) => lastCovered(a) - lastCovered(b))[0];
  const sound = study.sound.find(isUsual);
  return [
    words.say('study.covered', {
      cows: thousands(words, study.cows),
      low: percent(smallest(covered)),
      high: percent(largest(covered)),
    }),
    words.say('study.raised', {
      mm: raisedMm,
      ruler: percent(raisedAtOnce(study, 'ruler')),
      eye: percent(raisedAtOnce(study, 'eye')),
      cried: percent((sound?.cries.ranUpOrHeld ?? 0) + (sound?.cries.heldOverWeeks ?? 0)),
    }),
    ...(worst
      ? [
          words.say('study.worst', {
            what: words.say(`study.unlike.${worst.what}`),
            share: percent(lastCovered(worst)),
            count: worst.byReadings.length,
          }),
        ]
      : []),
  ];
}

/** What is said of the usual visit: by ruler, four weeks apart, a run-up of 12 mm. */
const raisedMm = 12;

function isUsual(row: { readonly tool: string; readonly weeks: number }): boolean {
  return row.tool === 'ruler' && row.weeks === 4;
}

function raisedAtOnce(study: StudyResults, tool: 'ruler' | 'eye'): number {
  const row = study.troubled.find(
    (one) => one.what === `ran up ${raisedMm} mm` && one.tool === tool && one.weeks === 4,
  );
  return row?.raisedBy[0] ?? 0;
}

function lastCovered({ byReadings }: StudyResults['unlike'][number]): number {
  return byReadings.at(-1)?.covered ?? 1;
}

import type { Archive } from '../growth/archive-on.js';
import type { WhatItLearned } from '../growth/learning/priors-for.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import { percent } from './percent.js';
import type { Words } from './words.js';

/**
 * What the cows on file have taught of growth: how fast such cows grow beside the published rates, with the range,
 * from how many, up to which day. Of few cows it says that it has learned little.
 *
 * Checked: tests/words/archive-sentences.test.ts
 */
export function learnedSentence(words: Words, { mean, low, high, cows, upTo }: WhatItLearned): string {
  const values = {
    count: cows,
    day: dayInWords(words, upTo),
    mean: percent(mean),
    low: percent(low),
    high: percent(high),
  };
  if (cows === 0) return words.say('archive.learned.none', values);
  return paragraph(
    words.say('archive.learned', values),
    cows < growthNumbers.trackRecord.few.value ? words.say('archive.little') : undefined,
  );
}

/** How good the dates have been: the share in the range and the days off, over how many gaps; of few gaps only how many. */
export function trackRecordSentence(words: Words, { record, upTo }: Archive): string {
  const { all, restarted } = record;
  const day = dayInWords(words, upTo);
  if (all.lesions === 0) return words.say('archive.record.none', { day });
  if (all.tooFew || all.inRange === undefined || all.middleErrorDays === undefined)
    return words.say('archive.record.few', { count: all.lesions, day });
  return paragraph(
    words.say('archive.record.said', {
      count: all.lesions,
      day,
      share: percent(all.inRange),
      days: Math.round(all.middleErrorDays),
    }),
    restarted.tooFew || restarted.inRange === undefined
      ? undefined
      : words.say('archive.record.restarted', {
          count: restarted.lesions,
          share: percent(restarted.inRange),
        }),
  );
}

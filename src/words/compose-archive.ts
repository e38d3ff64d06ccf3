import type { Archive } from '../herd/archive-on.js';
import type { WhatItLearned } from '../growth/learning/priors-for.js';
import { howGood, type HowGood } from '../herd/how-good.js';
import { printed } from '../herd/printed-figure.js';
import { growthNumbers } from '../reference/growth-numbers.js';
import { spreadInWords } from './compose-herd.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import { boundsInWords, percent } from './percent.js';
import type { Words } from './words.js';

/**
 * What the cows on file have taught of growth: how fast such cows grow beside the published rates, with the range,
 * from how many, up to which day. Of few cows it says that it has learned little, of one no figure is given.
 *
 * Checked: tests/words/archive-sentences.test.ts
 */
export function learnedSentence(words: Words, { mean, low, high, cows, upTo }: WhatItLearned): string {
  const day = dayInWords(words, upTo);
  if (cows === 0) return words.say('archive.learned.none', { day });
  if (!printed({ low, high }, cows)) return words.say('archive.learned.few', { cows, day });
  const values = { count: cows, day, mean: percent(mean), low: percent(low), high: percent(high) };
  return paragraph(
    words.say('archive.learned.said', values),
    cows < growthNumbers.trackRecord.few.value ? words.say('archive.little') : undefined,
  );
}

/** How good the dates have been: the share in the range and the days off, over how many gaps; of few gaps only how many. */
export function trackRecordSentence(
  words: Words,
  { record, upTo }: Pick<Archive, 'record' | 'upTo'>,
): string {
  const day = dayInWords(words, upTo);
  const all = howGood(record.gaps);
  if (all.gaps === 0) return words.say('archive.record.none', { day });
  if (!all.inRange || !all.daysOff) return words.say('archive.record.few', { count: all.gaps, day });
  const restarted = howGood(record.gaps.filter((gap) => gap.restarted));
  const share = ({ value, ...bounds }: NonNullable<HowGood['inRange']>) => ({
    share: percent(value),
    bounds: boundsInWords(words, bounds),
  });
  return paragraph(
    words.say('archive.record.said', {
      count: all.gaps,
      day,
      ...share(all.inRange),
      days: spreadInWords(words, all.daysOff),
    }),
    restarted.inRange &&
      words.say('archive.record.restarted', { count: restarted.gaps, ...share(restarted.inRange) }),
  );
}

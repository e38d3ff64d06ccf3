import { describe, expect, it } from 'vitest';
import type { Pooled } from '../../src/herd/pooled-on.js';
import type { WhatItLearned } from '../../src/growth/learning/priors-for.js';
import { studyResults } from '../../src/reference/study-results.js';
import { learnedSentence, trackRecordSentence, studySentences } from '../../src/words/compose-pooled.js';
import { wordsOf } from '../../src/reference/words.js';

const words = wordsOf('en-GB');

describe('what it learned', () => {
  const learned = (cows: number): WhatItLearned => ({
    mean: 0.978,
    low: 0.891,
    high: 1.066,
    cows,
    upTo: '2026-03-31',
  });

  it('says the mean with its range, from how many cows, up to which day', () => {
    expect(learnedSentence(words, learned(12))).toBe(
      'From 12 cows on record up to 31 March 2026, on all farms, horn grows at 98 % of the published rates (80 % range 89 to 107 %). A cow’s own record is never used to set her own starting rate.',
    );
  });

  it('under five cows it says that it has learned little, and with none that it has learned nothing', () => {
    expect(learnedSentence(words, learned(4))).toMatch(/With so few cows/);
    expect(learnedSentence(words, learned(5))).not.toMatch(/With so few/);
    // What one cow has taught is no figure.
    expect(learnedSentence(words, learned(1))).toBe(
      'Cows on record up to 31 March 2026 that tell us something about growth, on all farms: 1. Too few for a figure. A cow’s own record is never used to set her own starting rate.',
    );
    expect(learnedSentence(words, learned(2))).toMatch(/98 % of the published rates/);
    expect(learnedSentence(words, learned(0))).toMatch(
      /^No other cows had enough readings up to 31 March 2026/,
    );
  });
});

describe('the track record', () => {
  /** So many gaps, each of a cow of its own: the first `within` held the day, and were 10, 11, 12 … days off. */
  const gaps = (count: number, within: number, restarted = false) =>
    Array.from({ length: count }, (_, at) => ({
      farm: 'quernholt',
      slug: `${at}`,
      scores: [{ inRange: at < within ? 1 : 0, errorDays: 10 + at }],
      restarted,
    }));
  const said = (...all: ReturnType<typeof gaps>) =>
    trackRecordSentence(words, { record: { gaps: all }, upTo: '2026-03-31' } as unknown as Pooled);

  it('gives no share whose bounds are too wide, nor of one cow, only how many gaps there are', () => {
    expect(said(...gaps(4, 4))).toMatch(/only 4 gaps .* up to 31 March 2026\.$/);
    expect(said()).toMatch(/no measured gap was seen healed/);
    for (const few of [1, 4, 9]) expect(said(...gaps(few, few >> 1))).not.toMatch(/in 100/);
    const ofOne = gaps(12, 10).map((gap) => ({ ...gap, slug: '2086' }));
    expect(said(...ofOne)).not.toMatch(/in 100/);
  });

  it('gives the share and the days with their bounds, those whose clock started again apart where there are enough', () => {
    // 10 of 12: Wilson 55 to 95 %. Days 10 to 21: from the third to the tenth.
    expect(said(...gaps(12, 10))).toBe(
      'Of 12 gaps measured and then seen healed up to 31 March 2026, on all farms, 83 in 100 dates had the day within their range (95\u00a0% confidence interval 55 to 95\u00a0%; the target is 80). Days off the most likely day: median 15.5 (95\u00a0% confidence interval 12 to 19), most 21.',
    );
    expect(said(...gaps(12, 10), ...gaps(12, 6, true))).toMatch(
      /Of the 12 whose clock had restarted, 50 in 100 \(95\u00a0% confidence interval 25 to 75\u00a0%\)\.$/,
    );
    expect(said(...gaps(12, 10), ...gaps(3, 3, true))).not.toMatch(/restarted/);
  });
});

describe('the study in plain words', () => {
  const study = studyResults();

  it('takes every number from the data', () => {
    const [covered, raised, worst] = studySentences(words, {
      ...study,
      cows: 12_345,
      sound: study.sound.map((row) => ({
        ...row,
        byReadings: row.byReadings.map((one) => ({ ...one, covered: 0.61 })),
        cries: { ...row.cries, ranUpOrHeld: 0.03, heldOverWeeks: 0.04 },
      })),
      troubled: study.troubled.map((row) => ({ ...row, raisedBy: [0.77] })),
    });
    expect(covered).toMatch(/12,345 simulated cows.* 61 to 61 in 100/);
    expect(raised).toMatch(/12 mm .* 77 of 100 by ruler.* 77 of 100 by eye.* 7 were wrongly taken/);
    expect(worst).toMatch(/a wall length guessed and recorded as measured/);
  });

  it('names whatever is worst', () => {
    const better = study.unlike.filter(({ what }) => !what.startsWith('wall guessed'));
    expect(studySentences(words, { ...study, unlike: better })[2]).toMatch(/a top always read 5 mm too far/);
  });

  it('has a name for every kind of cow it was not made for', () => {
    for (const { what } of study.unlike) expect(words.has(`study.unlike.${what}`)).toBe(true);
  });
});

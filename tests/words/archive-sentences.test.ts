import { describe, expect, it } from 'vitest';
import type { Archive } from '../../src/growth/archive-on.js';
import type { WhatItLearned } from '../../src/growth/learning/priors-for.js';
import type { Score } from '../../src/growth/track-record/track-record.js';
import { studyResults } from '../../src/reference/study-results.js';
import { learnedSentence, trackRecordSentence } from '../../src/words/compose-archive.js';
import { studySentences } from '../../src/words/compose-study.js';
import { wordsOf } from '../../src/words/words.js';

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
      'From 12 cows on record up to 31 March 2026, on all farms, it has learned that their horn grows at 98 % of the published rates (8 chances in 10: 89 to 107 %). No cow counts in what is held of herself.',
    );
  });

  it('under five cows it says that it has learned little, and with none that it has learned nothing', () => {
    expect(learnedSentence(words, learned(4))).toMatch(/So few cows teach little/);
    expect(learnedSentence(words, learned(5))).not.toMatch(/So few/);
    expect(learnedSentence(words, learned(1))).toMatch(/^From one cow .* her horn/);
    expect(learnedSentence(words, learned(0))).toMatch(/^Nothing has been learned .* 31 March 2026/);
  });
});

describe('the track record', () => {
  const score = (lesions: number, inRange: number): Score => ({
    lesions,
    forecasts: 3 * lesions,
    tooFew: lesions < 5,
    ...(lesions > 0 ? { inRange, errorDays: 20, middleErrorDays: 14.4 } : {}),
  });
  const said = (all: Score, restarted: Score) =>
    trackRecordSentence(words, {
      record: { all, restarted, withoutForecast: 0, leftOut: 0, gaps: [] },
      upTo: '2026-03-31',
    } as unknown as Archive);

  it('gives no share of fewer than five gaps, only how many there are', () => {
    expect(said(score(4, 0.9), score(0, 0))).toMatch(/too few gaps .*, 4 up to 31 March 2026\.$/);
    expect(said(score(0, 0), score(0, 0))).toMatch(/no measured gap was seen healed/);
    for (const few of [0, 1, 4]) expect(said(score(few, 0.9), score(0, 0))).not.toMatch(/in 100/);
  });

  it('gives the share and the days, those whose clock started again apart where there are enough', () => {
    expect(said(score(12, 0.78), score(4, 0.5))).toBe(
      'Of 12 gaps measured and then seen healed up to 31 March 2026, on all farms, 78 in 100 dates held the day in their range (80 should). The middle gap was 14 days off its most likely day.',
    );
    expect(said(score(12, 0.78), score(6, 0.5))).toMatch(
      /Of the 6 whose clock had started again, 50 in 100\.$/,
    );
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
    expect(covered).toMatch(/12,345 cows .* 61 to 61 in 100/);
    expect(raised).toMatch(/12 mm .* 77 of 100 by ruler.* 77 of 100 by eye.* 7 were taken/);
    expect(worst).toMatch(/a wall length guessed and written as measured/);
  });

  it('names whatever is worst', () => {
    const better = study.unlike.filter(({ what }) => !what.startsWith('wall guessed'));
    expect(studySentences(words, { ...study, unlike: better })[2]).toMatch(/a top always read 5 mm too far/);
  });

  it('has a name for every kind of cow it was not made for', () => {
    for (const { what } of study.unlike) expect(words.has(`study.unlike.${what}`)).toBe(true);
  });
});

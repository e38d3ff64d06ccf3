import { expect, test } from 'vitest';
import { interval } from '../../src/statistics/estimate.js';
import { logRankScores } from '../../src/statistics/permutation-test.js';

// Masses (0,14]: 5/12, (14,28]: 5/12, (42,∞]: 1/6 (by hand in interval-censored-survival.test.ts).
// Before each box S = 1, 7/12, 1/6; H after each: 5/12, 5/12 + (5/12)/(7/12) = 5/12 + 5/7 = 95/84, 95/84 + 1.
//   (0, 14]   (7/12 · 5/12 − 0) ÷ 5/12 = 7/12
//   (0, 28]   (1/6 · 95/84) ÷ 5/6 = 19/84
//   (14, 28] and (14, 42]   (1/6 · 95/84 − 7/12 · 5/12) ÷ 5/12 = 19/42 − 7/12 = −11/84
//   (42, ∞]   (0 − 1/6 · 95/84) ÷ 1/6 = −95/84
// Sum: 2 · 49/84 + 19/84 − 2 · 11/84 − 95/84 = 0.
test('six animals, by hand', () => {
  const scores = logRankScores([
    interval(0, 14),
    interval(0, 14),
    interval(0, 28),
    interval(14, 28),
    interval(14, 42),
    interval(42, Infinity),
  ]);
  [49, 49, 19, -11, -11, -95].forEach((part, k) => expect(scores[k]).toBeCloseTo(part / 84, 11));
});

// Exact 1, exact 2, last look on 2: H = 1/3 after 1, 1/3 + 1/2 after 2. Scores 1 − 1/3, 1 − 5/6, −5/6.
test('an exact time and a last look on the same day', () => {
  const scores = logRankScores([interval(1, 1), interval(2, 2), interval(2, Infinity)]);
  [2 / 3, 1 / 6, -5 / 6].forEach((score, k) => expect(scores[k]).toBeCloseTo(score, 11));
});

import { expect, test } from 'vitest';
import { lameAtRound, lameAtRounds } from '../../src/herd/cow-years.js';

test('lame is at or above the scale’s own mark, out of the cows scored', () => {
  const counts = { 0: 130, 1: 51, 2: 20, 3: 4 };
  expect(lameAtRound({ date: '2026-01-20', scored: 205, counts }, 'uk-0-3')).toEqual({
    lame: 24,
    scored: 205,
  });
  // The same counts on a scale that calls a cow lame from 3: another number, and never converted.
  expect(lameAtRound({ date: '2026-01-20', counts: { 1: 60, 2: 30, 3: 8, 4: 2 } }, 'sprecher-1-5')).toEqual({
    lame: 10,
    scored: 100,
  });
});

test('each round has its bounds by Wilson, where they are not too wide to print, in the order of the days, none after the day asked about', () => {
  const farm = {
    farm: 'Quernholt',
    'gait-scale': [{ scale: 'uk-0-3' as const }, { from: '2026-03-01', scale: 'sprecher-1-5' as const }],
    'gait-rounds': [
      { date: '2026-03-10', counts: { 1: 5, 3: 5 } },
      { date: '2026-01-20', scored: 263, counts: { 0: 182, 2: 81 } },
      { date: '2026-02-20', scored: 0, counts: {} },
      { date: '2026-04-01', counts: { 1: 5 } },
    ],
  };
  const rounds = lameAtRounds(farm, '2026-03-31');
  expect(rounds.map(({ date, scale, lame, scored }) => [date, scale, lame, scored])).toEqual([
    ['2026-01-20', 'uk-0-3', 81, 263],
    ['2026-02-20', 'uk-0-3', 0, 0],
    ['2026-03-10', 'sprecher-1-5', 5, 10],
  ]);
  // Newcombe 1998, table I: 81 of 263, Wilson 0.2553 to 0.3662.
  expect(rounds[0]!.share!.low).toBeCloseTo(0.2553, 4);
  expect(rounds[0]!.share!.high).toBeCloseTo(0.3662, 4);
  // Nobody scored; and of ten scored Wilson leaves 24 to 76 %: both numbers are given, and no share.
  expect(rounds.slice(1).map(({ share }) => share)).toEqual([undefined, undefined]);
});

import { expect, test } from 'vitest';
import { lameAtRound } from '../../src/herd/lame-at-round.js';

test('lame is at or above the scale’s own mark, out of the cows scored', () => {
  const counts = { 0: 130, 1: 51, 2: 20, 3: 4 };
  expect(lameAtRound({ date: '2026-01-20', scored: 205, counts }, 'uk-0-3')).toEqual({
    lame: 24,
    scored: 205,
    share: 24 / 205,
  });
  // The same counts on a scale that calls a cow lame from 3: another number, and never converted.
  expect(lameAtRound({ date: '2026-01-20', counts: { 1: 60, 2: 30, 3: 8, 4: 2 } }, 'sprecher-1-5')).toEqual({
    lame: 10,
    scored: 100,
    share: 0.1,
  });
  expect(lameAtRound({ date: '2026-01-20', counts: {} }, 'nz-0-3').share).toBeUndefined();
});

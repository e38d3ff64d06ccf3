import { expect, test } from 'vitest';
import { farmFigures } from '../../src/herd/farm-figures.js';
import type { DdStage } from '../../src/record/words.js';
import { cow, herd, looks, visit } from './invented-herd.js';

const today = '2026-06-01';

test('healed, seen again, came back: each count has the one before as its whole', () => {
  const gap = { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } as const;
  const healed = looks(['2026-01-01', 'open'], ['2026-02-01', 'healed']);
  const animals = [
    // healed on 1 February, the same place open under `b` on 3 March: 30 days
    cow('1', [...healed, visit('2026-03-03', { found: { b: { state: 'open' } } })], {
      lesions: { a: gap, b: { ...gap, 'again-of': 'a' } },
    }),
    // healed, the foot trimmed later and nothing found
    cow('2', [...healed, visit('2026-04-01', { trimmed: ['LH'] })]),
    // healed, only the other foot lifted later: it could not be seen come back
    cow('3', [...healed, visit('2026-04-01', { trimmed: ['RH'] })]),
    // never healed
    cow('4', looks(['2026-01-01', 'open'])),
  ];
  expect(farmFigures(herd('quernholt', animals), today).farm.recurrence).toEqual({
    settled: 3,
    seenAgain: 2,
    cameBack: 1,
    daysBetween: [30],
  });
});

test('a flare of dermatitis after a quiet or healed look is a return, under its own name or a new one', () => {
  const staged = (name: string, ...seen: [string, DdStage][]) =>
    seen.map(([date, stage]) => visit(date, { found: { [name]: { stage } } }));
  const lesions = { c: { code: 'DD', foot: 'RH' }, d: { code: 'DD', foot: 'RH', 'again-of': 'c' } } as const;
  const animals = [
    // M2, M4, M4.1 (return after 10 days), M0, M1 under a new name (return after 30 days)
    cow(
      '1',
      [
        ...staged(
          'c',
          ['2026-01-01', 'M2'],
          ['2026-01-11', 'M4'],
          ['2026-01-21', 'M4.1'],
          ['2026-02-01', 'M0'],
        ),
        ...staged('d', ['2026-03-03', 'M1']),
      ],
      { lesions },
    ),
    // quiet and seen again quiet
    cow('2', staged('c', ['2026-01-01', 'M2'], ['2026-01-11', 'M3'], ['2026-02-01', 'M4']), { lesions }),
    // quiet at its last look
    cow('3', staged('c', ['2026-01-01', 'M2'], ['2026-01-11', 'M3']), { lesions }),
    // active all the time
    cow('4', staged('c', ['2026-01-01', 'M2'], ['2026-01-11', 'M2']), { lesions }),
  ];
  expect(farmFigures(herd('quernholt', animals), today).farm.dermatitis).toEqual({
    settled: 3,
    seenAgain: 2,
    cameBack: 1,
    daysBetween: [10, 30],
  });
});

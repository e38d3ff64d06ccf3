import { expect, test } from 'vitest';
import { dayKinds, lameDays } from '../../src/herd/lame-days.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, herd, visit } from './invented-herd.js';

const fitted = { foot: 'LH', claw: 'inner', event: 'fitted' } as const;
const removed = { foot: 'LH', claw: 'inner', event: 'removed' } as const;

/** The days that are not zero. */
function daysOf(visits: Visit[], today: string, more: object = {}) {
  const [first] = lameDays(herd('quernholt', [cow('1', visits, more)]), today);
  return Object.fromEntries(Object.entries(first?.days ?? {}).filter(([, days]) => days > 0));
}

test('by hand: lame off the block, on it, then off it and not lame', () => {
  const visits = [
    visit('2026-01-01', { gait: 2 }), // 14 days lame, no block
    visit('2026-01-15', { gait: 2, blocks: [fitted] }), // 14 days lame by that score, block on
    visit('2026-01-29', { gait: 1 }), // on the block, not lame on it: 14 days
    visit('2026-02-12', { gait: 1, blocks: [removed] }), // walked on the block; off it nothing is known for 10 days
    visit('2026-02-22', { gait: 0 }), // off the block, not lame: 6 days to 28 February
  ];
  expect(daysOf(visits, '2026-02-28')).toEqual({
    'lame-off-block': 14,
    'lame-on-block': 14,
    'not-lame-on-block': 14,
    'not-known': 10,
    'not-lame-off-block': 6,
  });
});

test('a score speaks for 28 days and no longer, nor past the end of the trouble', () => {
  const visits = [visit('2026-01-01', { gait: 2 })];
  expect(daysOf(visits, '2026-02-10')).toEqual({ 'lame-off-block': 28, 'not-known': 12 });
  expect(daysOf(visits, '2026-02-10', { episodes: [{ ended: '2026-01-11', result: 'sold' }] })).toEqual({
    'lame-off-block': 10,
  });
});

test('a cow lame even on the block stays lame when it comes off', () => {
  const visits = [
    visit('2026-01-01', { gait: 3, blocks: [fitted] }),
    visit('2026-01-11', { gait: 2, blocks: [removed] }),
  ];
  expect(daysOf(visits, '2026-01-21')).toEqual({ 'lame-on-block': 10, 'lame-off-block': 10 });
});

test('a block lost on an unknown day leaves the days between unclear', () => {
  const visits = [
    visit('2026-01-01', { gait: 2, blocks: [fitted] }),
    visit('2026-01-08', { blocks: [{ ...fitted, event: 'checked' }] }),
    visit('2026-01-22', { blocks: [{ ...fitted, event: 'lost', on: 'unknown' }] }),
  ];
  expect(daysOf(visits, '2026-01-25')).toEqual({
    'lame-on-block': 7,
    'lame-block-unclear': 14,
    'lame-off-block': 3,
  });
});

test('a walk said to be on a block that no event knows of is on it until the next score', () => {
  const visits = [visit('2026-01-01', { gait: 2, 'on-block': true }), visit('2026-01-08', { gait: 2 })];
  expect(daysOf(visits, '2026-01-10')).toEqual({ 'lame-on-block': 7, 'lame-off-block': 2 });
});

test('the days add up to the time from the first score', () => {
  const visits = [visit('2026-01-01'), visit('2026-01-05', { gait: 2 }), visit('2026-04-05', { gait: 0 })];
  const [one] = lameDays(herd('quernholt', [cow('1', visits)]), '2026-06-01');
  // 5 January to 1 June: 26 + 28 + 31 + 30 + 31 + 1 = 147 days.
  expect(dayKinds.reduce((sum, kind) => sum + one!.days[kind], 0)).toBe(147);
  expect(lameDays(herd('quernholt', [cow('1', [visit('2026-01-01')])]), '2026-06-01')).toEqual([]);
});

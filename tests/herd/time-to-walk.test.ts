import { expect, test } from 'vitest';
import { digestOf } from '../../src/herd/farm-digest.js';
import { timeToWalk } from '../../src/herd/time-to-event.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, herd, visit } from './invented-herd.js';

const today = '2026-06-01';
const fitted = { foot: 'LH', claw: 'inner', event: 'fitted' } as const;
const removed = { foot: 'LH', claw: 'inner', event: 'removed' } as const;
const daysOf = (visits: Visit[], more: object = {}, mark: 'notLame' | 'sound' = 'notLame') =>
  timeToWalk([digestOf(herd('quernholt', [cow('1', visits, more)]), today)], mark).cases.map(
    ({ days }) => days,
  );

test('a walk counts as not lame off the block and 7 days after it, not before', () => {
  const lame = visit('2026-01-01', { gait: 2, blocks: [fitted] });
  // On the block she walks 0 on day 14: no word on the foot, at either end.
  const onBlock = visit('2026-01-15', { gait: 0 });
  const off = visit('2026-01-29', { gait: 1, blocks: [removed] });
  // 6 days after the block came off is too soon, 7 days counts: day 28 + 7 = 35.
  expect(daysOf([lame, onBlock, off, visit('2026-02-04', { gait: 0 })])).toEqual([
    { after: 0, by: Infinity },
  ]);
  expect(daysOf([lame, onBlock, off, visit('2026-02-05', { gait: 0 })])).toEqual([{ after: 0, by: 35 }]);
});

test('the last lame score is the other end, on the block too', () => {
  expect(
    daysOf([
      visit('2026-01-01', { gait: 3, blocks: [fitted] }),
      visit('2026-01-15', { gait: 2 }),
      visit('2026-01-29', { gait: 1, blocks: [removed] }),
      visit('2026-02-12', { gait: 0 }),
      visit('2026-03-12', { gait: 2 }),
    ]),
  ).toEqual([{ after: 14, by: 42 }]);
});

test('a cow never scored lame has no time to count; each lameness episode has its own', () => {
  expect(daysOf([visit('2026-01-01', { gait: 1 }), visit('2026-01-15', { gait: 0 })])).toEqual([]);
  expect(daysOf([visit('2026-01-01'), visit('2026-01-15')])).toEqual([]);
  const episodes = [{ ended: '2026-02-01', result: 'sound' }, { 'lame-since': '2026-03-01' }];
  expect(
    daysOf(
      [
        visit('2026-01-01', { gait: 2 }),
        visit('2026-01-22', { gait: 0 }),
        visit('2026-03-01', { gait: 2 }),
        visit('2026-03-11', { gait: 2 }),
      ],
      { episodes },
    ),
  ).toEqual([
    { after: 0, by: 21 },
    { after: 10, by: Infinity },
  ]);
});

test('sound is the soundest score alone; a walk merely below lame keeps the time to it running', () => {
  const scored = ([date, gait]: [string, number]) => visit(date, { gait });
  const walks = ([['2026-01-01', 2], ['2026-01-15', 1], ['2026-01-29', 1], ['2026-02-12', 0]] as [string, number][]).map(scored); // prettier-ignore
  expect(daysOf(walks)).toEqual([{ after: 0, by: 14 }]);
  expect(daysOf(walks, {}, 'sound')).toEqual([{ after: 28, by: 42 }]);
  // Never at the soundest score: not lame, and not sound.
  expect(daysOf(walks.slice(0, 3), {}, 'sound')).toEqual([{ after: 28, by: Infinity }]);
  // On a block a walk above the soundest score says nothing of the foot, and does not keep the time running.
  const blocked = [
    visit('2026-01-01', { gait: 2, blocks: [fitted] }),
    visit('2026-01-15', { gait: 1 }),
    visit('2026-01-29', { blocks: [removed] }),
    visit('2026-02-12', { gait: 0 }),
  ];
  expect(daysOf(blocked, {}, 'sound')).toEqual([{ after: 0, by: 42 }]);
});

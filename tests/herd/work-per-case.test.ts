import { expect, test } from 'vitest';
import { spreadOfCounts } from '../../src/herd/spread-of-counts.js';
import { workPerCase } from '../../src/herd/work-per-case.js';
import { cow, herd, visit } from './invented-herd.js';

test('visits with feet lifted and blocks we fitted, ended cases and running ones apart', () => {
  const block = (event: 'fitted' | 'already on' | 'replaced') =>
    [{ foot: 'LH', claw: 'inner', event }] as const;
  const animals = [
    cow(
      '1',
      [
        visit('2026-01-01', { blocks: [...block('fitted')] }),
        visit('2026-01-15', { kind: 'report' }),
        visit('2026-01-29', { blocks: [...block('replaced')] }),
        visit('2026-03-01'),
      ],
      { episodes: [{ ended: '2026-02-01', result: 'sound' }, { 'lame-since': '2026-02-20' }] },
    ),
    cow('2', [visit('2026-01-01', { blocks: [...block('already on')] }), visit('2026-01-15')]),
    cow('3', [visit('2026-01-01', { kind: 'report' })]),
  ];
  const { ended, running } = workPerCase([herd('quernholt', animals)], '2026-06-01');
  // The ended case: 2 lifted visits, a block and its replacement.
  expect(ended).toEqual({
    visits: { cases: 1, mean: 2, median: 2, most: 2 },
    blocks: { cases: 1, mean: 2, median: 2, most: 2 },
  });
  // Running: 1 visit of animal 1, 2 of animal 2; the block on animal 2 was somebody else's.
  expect(running).toEqual({
    visits: { cases: 2, mean: 1.5, median: 1.5, most: 2 },
    blocks: { cases: 2, mean: 0, median: 0, most: 0 },
  });
  expect(workPerCase([herd('quernholt', [])], '2026-06-01')).toEqual({});
});

test('mean, median and most of counts', () => {
  expect(spreadOfCounts([7, 1, 2, 2])).toEqual({ cases: 4, mean: 3, median: 2, most: 7 });
  expect(spreadOfCounts([9, 1, 2])).toEqual({ cases: 3, mean: 4, median: 2, most: 9 });
  expect(spreadOfCounts([])).toBeUndefined();
});

import { expect, test } from 'vitest';
import { farmFigures } from '../../src/herd/farm-figures.js';
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
  const { ended, running } = farmFigures(herd('quernholt', animals), '2026-06-01').farm.work;
  // The ended case: 2 lifted visits, a block and its replacement.
  expect(ended).toEqual({ visits: { each: [2] }, blocks: { each: [2] } });
  // Running: 1 visit of animal 1, 2 of animal 2; the block on animal 2 was somebody else's.
  expect(running).toEqual({ visits: { each: [1, 2] }, blocks: { each: [0, 0] } });
  expect(farmFigures(herd('quernholt', []), '2026-06-01').farm.work).toEqual({});
});

import { expect, it } from 'vitest';
import { soundNotShown, stillOnAtClose } from '../../src/schedule/end-of-case.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, quernholt, visit } from './a-case.js';

const [foot, claw] = ['LH', 'inner'] as const;
const block = (event: 'fitted' | 'removed'): Partial<Visit> => ({ blocks: [{ foot, claw, event }] });
const why = (...visits: readonly Visit[]) =>
  soundNotShown(cow(visits), quernholt, { visits: visits.map((_, at) => at) }, '2026-06-30')?.why;
const [on, off] = [
  visit('2026-05-01', { gait: 2, ...block('fitted') }),
  visit('2026-06-01', block('removed')),
];

it.each([
  ['never scored', 'not-scored', [visit('2026-06-01')]],
  ['below lame and not the soundest', 'not-soundest', [visit('2026-06-01', { gait: 1 })]],
  ['scored on the block', 'on-block', [on, visit('2026-05-20', { gait: 0 })]],
  ['scored by a word that says on the block', 'on-block', [visit('2026-06-01', { gait: 0, 'on-block': true })]],
  ['6 days off the block', 'too-soon', [on, off, visit('2026-06-07', { gait: 0 })]],
  ['a block put on after the score', 'block-since', [visit('2026-06-01', { gait: 0, ...block('fitted') })]],
  ['7 days off the block', undefined, [on, off, visit('2026-06-08', { gait: 0 })]],
  ['never on a block', undefined, [visit('2026-06-01', { gait: 0 })]],
  ['worse on the block, soundest after', undefined, [on, off, visit('2026-06-03', { gait: 2 }), visit('2026-06-20', { gait: 0 })]],
] as const)('sound: %s', (_, expected, visits) => {
  expect(why(...visits)).toBe(expected);
}); // prettier-ignore

it('the soundest score is the scale’s own', () => {
  const visits = [visit('2026-06-01', { gait: 1 })];
  const on15 = { ...quernholt, 'gait-scale': 'sprecher-1-5' as const };
  expect(soundNotShown(cow(visits), on15, { visits: [0] }, '2026-06-30')).toBeUndefined();
});

it('a score after the end shows nothing of it', () => {
  const visits = [visit('2026-06-01', { gait: 1 }), visit('2026-06-20', { gait: 0 })];
  expect(soundNotShown(cow(visits), quernholt, { visits: [0, 1] }, '2026-06-10')?.why).toBe('not-soundest');
});

it('a score of the very day it ended counts', () => {
  const visits = [visit('2026-06-01', { gait: 1 }), visit('2026-06-20', { gait: 0 })];
  expect(soundNotShown(cow(visits), quernholt, { visits: [0, 1] }, '2026-06-20')).toBeUndefined();
});

it('a block or wrap still on is reported, of a cow that left with that; of a dead one nobody asks', () => {
  const animal = cow([visit('2026-05-01', { ...block('fitted'), wraps: [{ foot: 'RH', event: 'fitted' }] })]);
  const told = (result: Parameters<typeof stillOnAtClose>[1]) =>
    stillOnAtClose(animal, result, '2026-06-30').map(({ kind, left }) => [kind, left]);
  expect(told('recovered, not lame')).toEqual([['block', false], ['wrap', false]]); // prettier-ignore
  expect(told('sold')).toEqual([['block', true], ['wrap', true]]); // prettier-ignore
  expect(told('died')).toEqual([]);
  expect(told('put down')).toEqual([]);
  const bare = cow([visit('2026-05-01', block('fitted')), visit('2026-06-01', block('removed'))]);
  expect(stillOnAtClose(bare, 'sound', '2026-06-30')).toEqual([]);
});

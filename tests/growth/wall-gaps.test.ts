import { expect, test } from 'vitest';
import { wallGaps } from '../../src/growth/wall-gaps.js';
import { animalWith, gap, top, visit } from './invented-animal.js';

const animal = animalWith([visit('2026-01-01', { a: top(5), b: { code: 'WLF', state: 'open' } })], {
  lesions: {
    c: { ...gap, code: 'HFH' },
    a: gap,
    b: { ...gap, code: 'SH' },
    d: { code: 'DD', foot: 'LH' },
    e: { code: 'HFV', foot: 'LF', claw: 'inner' },
  },
});

test('gaps in wall horn, in the order declared; one renamed to be such counts from then on', () => {
  expect(wallGaps(animal, '2026-01-01').placed.map(({ lesion }) => lesion)).toEqual(['c', 'a', 'b']);
  expect(wallGaps(animal, '2025-12-31').placed.map(({ lesion }) => lesion)).toEqual(['c', 'a']);
});

test('one without claw or line is kept apart', () => {
  expect(wallGaps(animal, '2026-01-01').unplaced).toEqual([
    { lesion: 'e', code: 'HFV', foot: 'LF', why: 'no-length' },
  ]);
});

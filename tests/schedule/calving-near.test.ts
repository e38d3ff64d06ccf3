import { expect, it } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import { calvingNear } from '../../src/schedule/calving.js';
import { calvingInShort, calvingInWords } from '../../src/words/compose-withheld.js';
import { wordsOf } from '../../src/reference/words.js';
import { cow } from './a-case.js';

const due = '2026-07-01';
const near = (more: Partial<Animal>, ...days: string[]) => calvingNear(cow([], more), days);

it('from three weeks before the day she is due to two weeks after it, today or at her next lift', () => {
  expect(near({ 'due-to-calve': due }, '2026-06-10')).toEqual({ due, heifer: false });
  expect(near({ 'due-to-calve': due }, '2026-06-09')).toBeUndefined();
  expect(near({ 'due-to-calve': due }, '2026-06-09', '2026-06-23')).toBeDefined();
  expect(near({ 'due-to-calve': due }, '2026-07-15')).toBeDefined();
  expect(near({ 'due-to-calve': due }, '2026-07-16')).toBeUndefined();
});

it('until she has calved', () => {
  expect(near({ 'due-to-calve': due, calvings: ['2025-06-20', '2026-06-12'] }, '2026-06-13')).toBeUndefined();
  expect(near({ 'due-to-calve': due, calvings: ['2025-06-20'] }, '2026-06-13')).toBeDefined();
});

it('a heifer is said to be one; without a day written she is asked about once she is old enough', () => {
  const heifer = { calvings: [], born: '2024-08-20' };
  expect(near({ ...heifer, 'due-to-calve': due }, '2026-06-20')).toEqual({ due, heifer: true });
  expect(near(heifer, '2026-05-22')).toEqual({ heifer: true });
  expect(near(heifer, '2026-05-21')).toBeUndefined();
  expect(near({ ...heifer, 'calved-before': 1 }, '2026-05-22')).toBeUndefined();
  expect(near({ born: '2020-08-20' }, '2026-05-22')).toBeUndefined();
});

it('says so with how she may be lifted', () => {
  const words = wordsOf('en-GB');
  expect(calvingInShort(words, { heifer: true })).toBe(
    'heifer that may be close to calving; no due date recorded',
  );
  expect(calvingInWords(words, { due, heifer: false })).toBe(
    'Near calving: due to calve 1 July 2026. Agree with the farm or vet before she is lifted. Keep the lift as short as possible; no belly strap, and do not tilt her on her side.',
  );
});

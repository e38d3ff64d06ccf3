import { expect, test } from 'vitest';
import type { Found } from '../../src/record/visit.js';
import { animalWith, gapOf, top, visit } from './invented-animal.js';

const spread = (...found: Found[]) => {
  const visits = found.map((one, k) => visit(`2026-0${k + 1}-01`, { a: one }));
  return gapOf(animalWith(visits)).spreading;
};

// Ruler: 2√2 · 2 = 5.657 mm.
test('wider by more than two rulers can be off, though the top comes down', () => {
  expect(spread(top(10, { width: 8 }), top(16, { width: 13.6 }))).toBeUndefined();
  expect(spread(top(10, { width: 8 }), top(16, { width: 13.7 }))).toEqual({
    since: '2026-01-01',
    fromMm: 8,
    toMm: 13.7,
  });
});

test('the width before counts, over visits without one; a photo says less', () => {
  expect(spread(top(10, { width: 8 }), top(16), top(22, { width: 14 }))).toMatchObject({
    since: '2026-01-01',
  });
  expect(spread(top(10, { width: 8 }), top(16, { width: 14, tool: 'photo' }))).toBeUndefined();
  expect(spread(top(10, { width: 8 }), top(16, { width: 15 }), top(22, { width: 15 }))).toBeUndefined();
});

test('a gap that is healed does not spread', () => {
  expect(spread(top(10, { width: 8 }), top(16, { width: 15 }), { state: 'healed' })).toBeUndefined();
});

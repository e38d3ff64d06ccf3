import { expect, test } from 'vitest';
import type { Found } from '../../src/record/visit.js';
import { wallLength } from '../../src/growth/follow-animal.js';
import { animalWith, gap, visit } from './invented-animal.js';

const lesions = {
  a: gap,
  b: gap,
  c: { ...gap, claw: 'inner' as const },
  d: { ...gap, line: 'abaxial' as const },
};
const walls = (...found: Record<string, Found>[]) =>
  wallLength(
    animalWith(
      found.map((one, k) => visit(`2026-0${k + 1}-01`, one)),
      { lesions },
    ),
    gap as typeof gap & { claw: 'outer'; line: 'heel' },
    '2026-06-01',
  );

test('the latest measured on the line counts, whichever lesion it is under', () => {
  expect(
    walls(
      { a: { wall: 40, tool: 'ruler' } },
      { b: { wall: 44, tool: 'tape' } },
      { c: { wall: 50 }, d: { wall: 60 } },
    ),
  ).toEqual({
    mm: 44,
    sdMm: 2,
    source: 'measured',
    measured: { date: '2026-02-01', under: 'b', beside: false },
    likelyTooLong: false,
  });
});

test('not one after the claw was lowered; one beside counts', () => {
  expect(walls({ a: { wall: 40, 'wall-at': 'beside' } }, { a: { wall: 31, 'wall-lowered': true } }).mm).toBe(
    40,
  );
});

test('one beside may be off by more: 5 mm in quadrature', () => {
  expect(walls({ a: { wall: 40, tool: 'ruler', 'wall-at': 'beside' } })).toMatchObject({
    sdMm: Math.hypot(2, 5),
    measured: { under: 'a', beside: true },
  });
});

test('its own tool goes before that of the top; another reader adds nothing', () => {
  expect(walls({ a: { wall: 40, tool: 'ruler', 'wall-tool': 'calliper' } }).sdMm).toBe(1);
  expect(walls({ a: { wall: 75, tool: 'eye' } }).sdMm).toBe(9);
  expect(walls({ a: { wall: 40 } }).sdMm).toBe(2);
});

test('nothing measured after the day it is asked for', () => {
  const animal = animalWith([
    visit('2026-01-01', { a: { wall: 40 } }),
    visit('2026-03-01', { a: { wall: 43 } }),
  ]);
  expect(wallLength(animal, gap as never, '2026-02-28').mm).toBe(40);
  expect(wallLength(animal, gap as never, '2025-12-31')).toEqual({
    mm: 42,
    sdMm: 7,
    source: 'reference',
    likelyTooLong: false,
  });
});

test.each([
  [{ breed: 'Jersey' }, true],
  [{ breed: 'Holstein × jersey' }, true],
  [{ breed: 'Holstein', calvings: [] }, true],
  [{ breed: 'Holstein', calvings: ['2025-01-01'] }, false],
  [{}, false],
])('a reference length for %j: likely too long %s', (more, likelyTooLong) => {
  expect(wallLength(animalWith([], more), gap as never, '2026-06-01')).toMatchObject({
    source: 'reference',
    likelyTooLong,
  });
});

import { expect, test } from 'vitest';
import { readGap, readMark } from '../../src/growth/follow-animal.js';
import { animalWith, gap, growthOf, top, visit } from './invented-animal.js';

const place = { foot: 'LH', claw: 'outer', line: 'heel' } as const;
const mark = { foot: 'LH', claw: 'inner', line: 'dorsal', 'groove-from': '2026-01-01' } as const;

test('a reading is a length, or a top that was looked for and not found; other findings are none', () => {
  const animal = animalWith([
    visit('2026-01-01', { a: { state: 'open' } }),
    visit('2026-02-01', { a: { state: 'open', 'top-found': 'higher' } }),
    visit('2026-03-01', { a: top(9) }),
    visit('2026-04-01', { a: top(15) }),
  ]);
  const { readings } = readGap(animal, 'a', place, '2026-03-31');
  expect(readings.map(({ visit: index, mm, notReached }) => [index, mm, notReached])).toEqual([
    [1, undefined, true],
    [2, 9, false],
  ]);
});

test('the first reader is who read the first length to trust; another adds 1.5 mm', () => {
  const animal = animalWith([
    visit('2026-01-01', { a: top(5, { 'top-found': 'higher' }) }, { by: 'Fenn Arkwell' }),
    visit('2026-02-01', { a: top(9) }),
    visit('2026-03-01', { a: top(15) }, { by: 'Fenn Arkwell' }),
  ]);
  expect(readGap(animal, 'a', place, '2026-12-01').readings.map(({ sigmaMm }) => sigmaMm)).toEqual([
    2.5, 2, 2.5,
  ]);
});

test('a groove enters with its first reading, and not from an event after it', () => {
  const read = (date: string) =>
    readMark(
      animalWith([visit(date, { m: { distance: 8 } })], { marks: { m: mark } }),
      'm',
      mark,
      '2026-12-01',
    );
  expect(read('2026-03-01').grooveFrom).toBe(20_454);
  expect(read('2025-12-31').grooveFrom).toBeUndefined();
  expect(readMark(animalWith([], { marks: { m: mark } }), 'm', mark, '2026-12-01').readings).toEqual([]);
});

// On one day lesions come before marks, each in the order declared, whatever the order of the findings.
test('on one day the lesion teaches first, then the mark', () => {
  const animal = animalWith(
    [
      visit('2026-01-01', { m: { distance: 10, tool: 'ruler' }, a: top(10) }),
      visit('2026-03-03', { m: { distance: 18, tool: 'ruler' }, a: top(20) }),
    ],
    { lesions: { a: gap }, marks: { m: { foot: 'LH', claw: 'inner', line: 'dorsal' } } },
  );
  const growth = growthOf(animal);
  // worked in tests/hand-worked/one-line.test.ts: the lesion is judged before the mark has taught anything
  expect(growth.lesions[0]!.readings[1]!.expectedMm).toBeCloseTo(22.0246407, 6);
  // 10 + 5.3 · 0.98 · 2.0041068 · 0.9384424, by the factor the lesion has taught
  expect(growth.marks[0]!.readings[1]!.expectedMm).toBeCloseTo(10 + 5.194 * 2.0041068 * 0.9384424, 5);
});

import { expect, test } from 'vitest';
import { lactationOn, referenceRate } from '../../src/growth/growth-line.js';
import { animalWith, gapOf, top, visit } from './invented-animal.js';

test.each([
  [{}, 'unknown'],
  [{ 'calved-before': 2 }, 'unknown'],
  [{ calvings: [] }, 'first'],
  [{ calvings: ['2027-01-01'] }, 'first'],
  [{ calvings: ['2026-01-01'] }, 'first'],
  [{ calvings: ['2025-01-01', '2026-01-01'] }, 'second'],
  [{ calvings: ['2025-01-01', '2026-01-02'] }, 'first'],
  [{ calvings: ['2026-01-01'], 'calved-before': 1 }, 'second'],
  [{ calvings: [], 'calved-before': 3 }, 'later'],
  [{ calvings: ['2024-01-01', '2025-01-01', '2026-01-01'] }, 'later'],
] as const)('%j on 1 January 2026: %s', (animal, lactation) => {
  const { calvings, ...more } = animal as { calvings?: readonly string[]; 'calved-before'?: number };
  expect(lactationOn({ ...more, ...(calvings ? { calvings: [...calvings] } : {}) }, '2026-01-01')).toBe(
    lactation,
  );
});

// 5.3 · 0.98 · 0.94 · 1.03 = 5.0288…; 6 · 1.08 = 6.48; 6 · 0.97 = 5.82
test('line, claw, foot and lactation each have their part', () => {
  expect(referenceRate({ line: 'dorsal', claw: 'inner', foot: 'RF', lactation: 'second' })).toBeCloseTo(
    5.0288,
    4,
  );
  expect(referenceRate({ line: 'abaxial', claw: 'outer', foot: 'RH', lactation: 'first' })).toBeCloseTo(
    6.48,
    12,
  );
  expect(referenceRate({ line: 'axial', claw: 'outer', foot: 'LH', lactation: 'later' })).toBeCloseTo(
    5.82,
    12,
  );
  expect(referenceRate({ line: 'heel', claw: 'outer', foot: 'LH', lactation: 'unknown' })).toBe(6);
});

test('her lactation is that of the first reading with a length to trust, and stays', () => {
  const calvings = ['2024-06-01', '2026-01-15', '2026-03-20'];
  const visits = [
    visit('2026-01-01', { a: { state: 'open', 'top-found': 'higher' } }),
    visit('2026-02-01', { a: top(10) }),
    visit('2026-04-01', { a: top(22) }),
  ];
  expect(gapOf(animalWith(visits, { calvings })).referenceMmPerMonth).toBeCloseTo(6 * 1.03, 12);
});

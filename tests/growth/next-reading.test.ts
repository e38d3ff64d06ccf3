import { expect, test } from 'vitest';
import type { Found } from '../../src/record/visit.js';
import { animalWith, gapOf, top, visit } from './invented-animal.js';

const next = (second: Found, day = '2026-03-01') =>
  gapOf(animalWith([visit('2026-01-01', { a: top(20) }), visit('2026-01-29', { a: second })])).nextReading(
    day,
  );

test('a reading just below the alarm mark would be doubtful, one just above it would not', () => {
  const visits = [visit('2026-01-01', { a: top(20) }), visit('2026-01-29', { a: top(25) })];
  const { alarmMm } = gapOf(animalWith(visits)).nextReading('2026-02-26')!;
  const kind = (mm: number) =>
    gapOf(animalWith([...visits, visit('2026-02-26', { a: top(mm) })])).readings[2]!.kind;
  expect(kind(alarmMm - 0.001)).toBe('doubtful');
  expect(kind(alarmMm + 0.001)).toBe('grew');
});

test('range and mark are not below the coronet', () => {
  expect(next(top(0))).toMatchObject({ lowMm: expect.any(Number), alarmMm: 0 });
  expect(next(top(0), '2026-01-29')!.lowMm).toBe(0);
});

test('held or doubtful: what growth would bring is still given', () => {
  expect(next(top(17))).toBeDefined();
  expect(next(top(15))).toBeDefined();
});

test('by eye the error is that of the length expected', () => {
  const visits = [visit('2026-01-01', { a: top(80, { tool: 'eye' }) })];
  const gap = gapOf(animalWith(visits));
  const { meanMm, sdMm } = gap.nextReading('2026-01-31')!;
  expect(sdMm).toBeCloseTo(Math.hypot(gap.expectedOn('2026-01-31')!.sdMm, 0.12 * meanMm), 12);
});

test('nothing is expected of a gap whose forecast is void, nor before its last used reading', () => {
  expect(next({ state: 'healed' })).toBeUndefined();
  expect(next({ state: 'open', infected: true })).toBeUndefined();
  expect(next({ state: 'open', 'top-found': 'higher' })).toBeUndefined();
  expect(next(top(25), '2026-01-28')).toBeUndefined();
});

test('8 readings in 10 lie in the range: as far above the mean as below it, 1.2816 SDs', () => {
  const { meanMm, sdMm, lowMm, highMm } = next(top(25))!;
  // The point of the standard normal distribution that 10 % lie beyond: 1.2816 (Abramowitz and Stegun, table 26.5).
  expect(highMm - meanMm).toBeCloseTo(1.2816 * sdMm, 3);
  expect(meanMm - lowMm).toBeCloseTo(1.2816 * sdMm, 3);
});

import { expect, test } from 'vitest';
import { plannedVisit } from '../../src/growth/planned-visit.js';
import { visit } from './invented-animal.js';

const on = (recheck: string | undefined, next: string | undefined) =>
  plannedVisit(
    { visits: [visit('2026-01-01', {}, recheck === undefined ? {} : { recheck }), visit('2026-01-20', {})] },
    next === undefined ? {} : { 'next-visit': next },
    '2026-02-01',
  );

test('her recheck goes before the farm visit; what has passed does not count', () => {
  expect(on('2026-02-03', '2026-02-01')).toBe('2026-02-03');
  expect(on('2026-01-31', '2026-02-10')).toBe('2026-02-10');
  expect(on(undefined, '2026-02-01')).toBe('2026-02-01');
  expect(on('2026-01-31', '2026-01-31')).toBeUndefined();
  expect(on(undefined, undefined)).toBeUndefined();
});

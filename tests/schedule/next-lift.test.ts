import { expect, it } from 'vitest';
import { nextLift, plannedVisit } from '../../src/schedule/next-lift.js';
import type { Animal } from '../../src/record/animal.js';
import { cow, quernholt, visit, workOut } from './a-case.js';

const today = '2026-06-10';
const gap = { a: { state: 'open' as const, top: 17 } };
const of = (animal: Animal, next?: string) => {
  const farm = { ...quernholt, ...(next === undefined ? {} : { 'next-visit': next }) };
  return nextLift(farm, workOut(animal, today, farm), today);
};

it('is the day she is due, not the farm’s next visit before it', () => {
  const written = cow([visit('2026-06-02', { found: gap, recheck: '2026-06-30' })]);
  expect(of(written)).toBe('2026-06-30');
  expect(of(written, '2026-06-16')).toBe('2026-06-30');
  expect(of(cow([visit('2026-06-02', { found: gap })]), '2026-06-11')).toBe('2026-06-16');
});

it('today counts, and the first of several lifts', () => {
  expect(of(cow([visit('2026-06-02', { found: gap, recheck: today })]))).toBe(today);
  const blocked = visit('2026-06-08', {
    found: gap,
    blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }],
    recheck: '2026-06-30',
  });
  expect(of(cow([blocked]))).toBe('2026-06-15');
});

it('what is late waits for the planned visit, and without one no day is known', () => {
  const late = cow([visit('2026-05-02', { found: gap, recheck: '2026-06-01' })]);
  expect(of(late, '2026-06-16')).toBe('2026-06-16');
  expect(of(late)).toBeUndefined();
  expect(of(late, '2026-06-09')).toBeUndefined();
});

it('a cow with nothing to lift her for is not lifted because the farm is visited', () => {
  const healed = cow([visit('2026-06-02', { found: { a: { state: 'healed' } } })]);
  expect(of(healed, '2026-06-16')).toBeUndefined();
});

it('a planned visit is one whose day has not passed', () => {
  expect(plannedVisit({ 'next-visit': today }, today)).toBe(today);
  expect(plannedVisit({ 'next-visit': '2026-06-09' }, today)).toBeUndefined();
  expect(plannedVisit({}, today)).toBeUndefined();
});

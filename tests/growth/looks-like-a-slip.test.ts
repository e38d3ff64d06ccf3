import { expect, test } from 'vitest';
import { forecastEntries } from '../../src/growth/when-out.js';
import type { Found } from '../../src/record/visit.js';
import { animalWith, gapOf, growthOf, top, visit } from './invented-animal.js';

const read = (...found: Found[]) => animalWith(found.map((one, k) => visit(`2026-0${k + 1}-01`, { a: one })));
const entryOf = (animal: ReturnType<typeof read>) =>
  forecastEntries({ farm: 'quernholt', slug: '2086', animal }, growthOf(animal))[0]!;

test('4.1 after 33: doubtful and asked about, nowhere a run-up; a date only if it has run up', () => {
  const gap = gapOf(read(top(33, { wall: 43 }), top(4.1)));
  expect(gap.asked).toBe('4.1 mm? 41 would fit.');
  expect(gap.readings[1]).toMatchObject({ kind: 'doubtful', takenAs: 'ran-up', asked: gap.asked });
  expect(gap.readings[1]!.ranUpMm).toBeUndefined();
  expect(gap.forecast).toMatchObject({ outcome: 'none', why: 'doubtful', ifRanUp: { from: '2026-02-01' } });
});

test('for programs it is given out as the sums have it, with the question beside it', () => {
  const entry = entryOf(read(top(33, { wall: 43 }), top(4.1)));
  expect(entry.readings[1]).toMatchObject({ kind: 'ran-up', asked: '4.1 mm? 41 would fit.' });
  expect(entry.why).toBeUndefined();
  expect(entry.from).toBe('2026-02-01');
  expect(entry.out).toBeDefined();
});

test('a run-up that somebody says, or that ten times would not fix, is one', () => {
  const said = gapOf(read(top(33, { wall: 43 }), top(4.1, { 'ran-up': true })));
  expect(said.asked).toBeUndefined();
  expect(said.readings[1]).toMatchObject({ kind: 'ran-up' });
  expect(said.readings[1]!.ranUpMm).toBeGreaterThan(30);
  expect(said.forecast.outcome).toBe('range');
  expect(gapOf(read(top(33, { wall: 43 }), top(12))).readings[1]).toMatchObject({ kind: 'ran-up' });
});

test('a first reading or a wall in centimetres has no date until it is answered', () => {
  const gap = gapOf(read(top(1.8, { wall: 4.4 })));
  expect(gap.asked).toBe('1.8 mm? 18 would fit. 4.4 mm? 44 would fit.');
  expect(gap.forecast).toMatchObject({ outcome: 'none', why: 'doubtful' });
  expect('ifRanUp' in gap.forecast).toBe(false);
  const wall = gapOf(read(top(20, { wall: 4.3, 'wall-lowered': true }), top(26)));
  expect(wall.forecast.outcome).toBe('range');
  const later = gapOf(read(top(3, { wall: 4.3 }), top(8)));
  expect(later.asked).toBe('4.3 mm? 43 would fit.');
  expect(later.forecast.outcome).toBe('none');
});

test('the next reading settles it: what is asked about an earlier one stays with that one', () => {
  const gap = gapOf(read(top(33, { wall: 43 }), top(4.1), top(41)));
  expect(gap.asked).toBeUndefined();
  expect(gap.readings.map(({ kind }) => kind)).toEqual(['first', 'doubtful', 'lower-than-growth']);
  expect(gap.forecast.outcome).toBe('range');
});

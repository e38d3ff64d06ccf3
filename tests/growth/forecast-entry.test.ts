import { expect, test } from 'vitest';
import { forecastEntries } from '../../src/growth/when-out.js';
import { animalWith, gap, growthOf, top, visit } from './invented-animal.js';

const lesions = { b: gap, a: { ...gap, foot: 'RF' as const }, c: { ...gap, claw: 'inner' as const } };
const animal = animalWith(
  [
    visit('2026-01-01', { b: top(10, { wall: 50 }), a: top(20, { wall: 50 }), c: { state: 'open' } }),
    visit('2026-01-29', { b: top(16), a: top(17) }),
  ],
  { lesions },
);
const entries = forecastEntries(
  { farm: 'quernholt', slug: '2086-2', animal, nextLift: '2026-02-26' },
  growthOf(animal, '2026-02-01'),
);

test('one entry for each gap with a reading, sorted by lesion', () => {
  expect(
    entries.map(({ farm, animal: slug, number, lesion, line }) => [farm, slug, number, lesion, line]),
  ).toEqual([
    ['quernholt', '2086-2', '2086', 'a', 'heel'],
    ['quernholt', '2086-2', '2086', 'b', 'heel'],
  ]);
});

test('a gap with a date', () => {
  const entry = entries[1]!;
  expect(Object.keys(entry)).toEqual([
    'farm', 'animal', 'number', 'lesion', 'line', 'readings', 'factor', 'wallMm', 'wallSdMm', 'wallSource',
    'from', 'outAfterDays', 'out', 'ifSoundHornFollows', 'inSixWeeks', 'nextReading',
  ]); // prettier-ignore
  expect(entry).toMatchObject({ from: '2026-01-29', wallMm: 50, wallSdMm: 2, wallSource: 'measured' });
  expect(entry.out!.best).toMatch(/^2026-/);
  expect(entry.nextReading!.date).toBe('2026-02-26');
  expect(entry.readings[0]).toEqual({ date: '2026-01-01', topMm: 10, kind: 'first' });
});

test('a doubtful gap: why, and the range if she has run up', () => {
  const entry = entries[0]!;
  expect(entry.why).toBe('doubtful');
  expect(entry.from).toBeUndefined();
  expect(entry.outAfterDays).toBeUndefined();
  expect(Object.keys(entry.ifRanUp!)).toEqual(['from', 'outAfterDays', 'out']);
  expect(entry.ifRanUp!.from).toBe('2026-01-29');
});

test('it goes through JSON unchanged: no undefined, no NaN', () => {
  expect(JSON.parse(JSON.stringify(entries))).toEqual(entries);
});

test('by eye alone: why, the sums, and no day of being out', () => {
  const eye = animalWith([visit('2026-01-01', { a: top(20, { tool: 'eye', wall: 50 }) })]);
  const of = { farm: 'quernholt', slug: '2086', animal: eye, nextLift: '2026-02-26' };
  const [entry] = forecastEntries(of, growthOf(eye, '2026-02-01'));
  expect(Object.keys(entry!).slice(10)).toEqual([
    'from', 'outAfterDays', 'ifSoundHornFollows', 'inSixWeeks', 'why', 'nextReading',
  ]); // prettier-ignore
  expect(entry!.why).toBe('by-eye');
});

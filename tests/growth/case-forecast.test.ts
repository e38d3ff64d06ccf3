import { expect, test } from 'vitest';
import { animalWith, gap, growthOf, top, visit } from './invented-animal.js';

const lesions = { a: gap, b: { ...gap, foot: 'RH' as const } };

test('whole when the last of her gaps is: the slowest decides, days count from the latest reading', () => {
  const growth = growthOf(
    animalWith(
      [
        visit('2026-01-01', { a: top(10, { wall: 42 }), b: top(5, { wall: 60 }) }),
        visit('2026-02-01', { a: top(16) }),
      ],
      { lesions },
    ),
  );
  const [, b] = growth.lesions;
  if (growth.case.outcome === 'none' || b!.forecast.outcome === 'none') throw new Error('expected a range');
  expect(growth.case.from).toBe('2026-02-01');
  // b is so far behind that it alone decides; it was read 31 days before.
  for (const end of ['early', 'best', 'late'] as const) {
    expect(growth.case.days[end]!).toBeCloseTo(b!.forecast.days[end]! - 31, 6);
    expect(growth.case.out[end]).toBe(b!.forecast.out[end]);
  }
});

test('no case date if any gap has none, and why', () => {
  const visits = [visit('2026-01-01', { a: top(10), b: top(5, { infected: true }) })];
  expect(growthOf(animalWith(visits, { lesions })).case).toEqual({
    outcome: 'none',
    because: [{ lesion: 'b', why: 'infected' }],
  });
});

test('a gap that is healed, or joined and followed elsewhere, does not count; a lesion never placed does', () => {
  const visits = [
    visit('2026-01-01', { a: top(10), b: top(40) }),
    visit('2026-02-01', { a: top(16), b: { state: 'healed' } }),
  ];
  const growth = growthOf(animalWith(visits, { lesions }));
  const a = growth.lesions[0]!.forecast;
  if (a.outcome === 'none' || growth.case.outcome === 'none') throw new Error('expected a range');
  expect(growth.case.out).toEqual(a.out);
  const unplaced = growthOf(animalWith(visits, { lesions: { ...lesions, c: { code: 'WLF', foot: 'LF' } } }));
  expect(unplaced.case).toEqual({ outcome: 'none', because: [{ lesion: 'c', why: 'no-length' }] });
});

test('all healed: said so', () => {
  const growth = growthOf(animalWith([visit('2026-01-01', { a: { state: 'healed' } })]));
  expect(growth.case).toEqual({ outcome: 'none', because: [{ lesion: 'a', why: 'healed' }] });
});

test('at the coronet on one line: for the case too only if sound horn follows', () => {
  const growth = growthOf(animalWith([visit('2026-01-01', { a: top(0), b: top(20) })], { lesions }));
  expect(growth.case).toMatchObject({ outcome: 'range', ifSoundHornFollows: true });
});

import { expect, test } from 'vitest';
import { animalWith, gap, growthOf, top, visit } from '../growth/invented-animal.js';

// The line of one-line.test.ts, and on the same two days a second gap on the dorsal line: ρ = 5.3, e = 0.05, e² = 0.0025.
// By the second day the first line has taught her factor: g = 0.9384424, Var g = 0.0282308.
//
// Expected   ρτ = 5.3 · 2.0041068 = 10.6217659;  μ = 30 + 10.6217659 · 0.9384424 = 39.9679157
// Variance   4 + 112.8219110 · (0.0282308 + 0.0025) + 0.2809 · 2.0041068 = 4 + 3.4671096 + 0.5629536 = 8.0300632
//            √(8.0300632 + 4) = 3.4684381
// z          (42 − 39.9679157) / 3.4684381 = 0.5858788
// Factor     gain 10.6217659 · 0.0282308 / 12.0300632 = 0.0249260;  g = 0.9384424 + 0.0249260 · 2.0320843 = 0.9890941
//            Var g = 0.0282308 − (10.6217659 · 0.0282308)² / 12.0300632 = 0.0207565
test('two gaps of one cow share her growth factor', () => {
  const growth = growthOf(
    animalWith(
      [visit('2026-01-01', { a: top(10), b: top(30) }), visit('2026-03-03', { a: top(20), b: top(42) })],
      { lesions: { a: gap, b: { ...gap, line: 'dorsal' } } },
    ),
  );
  const second = growth.lesions[1]!.readings[1]!;
  expect(second.kind).toBe('grew');
  expect(second.expectedMm).toBeCloseTo(39.9679157, 6);
  expect(second.sdMm).toBeCloseTo(3.4684381, 6);
  expect(second.z).toBeCloseTo(0.5858788, 6);
  expect(growth.factor.mean).toBeCloseTo(0.9890941, 6);
  expect(growth.factor.variance).toBeCloseTo(0.0207565, 6);
});

// A groove left by a calving on 1 January, dorsal, outer claw behind, calvings not written: ρ = 5.3. It starts that day at 0, σ = 6.
// First read on 3 March at 11 mm by calliper, σ = 1, by whoever reads it first, so no other-reader term.
//   μ = 10.6217659;  v = 36 + 112.8219110 · (0.0445 + 0.0025) + 0.5629536 = 36 + 5.3026298 + 0.5629536 = 41.8655834
//   z = (11 − 10.6217659) / √42.8655834 = 0.3782341 / 6.5471813 = 0.0577705
//   g = 1 + 10.6217659 · 0.0445 / 42.8655834 · 0.3782341 = 1 + 0.0110268 · 0.3782341 = 1.0041707
test('a groove from a dated event teaches with its first reading', () => {
  const growth = growthOf(
    animalWith([visit('2026-03-03', { m: { distance: 11, tool: 'calliper' } })], {
      lesions: {},
      marks: { m: { foot: 'LH', claw: 'outer', line: 'dorsal', 'groove-from': '2026-01-01' } },
    }),
  );
  const reading = growth.marks[0]!.readings[0]!;
  expect(reading).toMatchObject({ kind: 'grew', unused: false });
  expect(reading.expectedMm).toBeCloseTo(10.6217659, 6);
  expect(reading.z).toBeCloseTo(0.0577705, 6);
  expect(growth.factor.mean).toBeCloseTo(1.0041707, 6);
});

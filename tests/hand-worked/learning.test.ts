import { expect, test } from 'vitest';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { animalWith, top, visit } from '../growth/invented-animal.js';
import { farmWith, practiceOf } from '../growth/invented-practice.js';

// Two cows of one heel line each, read by ruler on 1 January and 61 days later; a third read once, which teaches nothing.
// The difference of two readings is ρτ (g + h) + error: ρτ = 6 · 2.0041068 = 12.0246407, (ρτ)² = 144.5919829.
//   its variance about ρτ g     144.5919829 · 0.13² + 4 + 4 + 0.36 · 2.0041068 = 2.4436045 + 8 + 0.7214784 = 11.1650830
//   weight of what she teaches  144.5919829 / 11.1650830 = 12.9503725, the same for both; factor = difference / ρτ
//   A: 10 mm, 10 / 12.0246407 = 0.8316257     B: 15 mm, 15 / 12.0246407 = 1.2474385
// What each says of the mean: 1 / (0.18² + 1/12.9503725) = 1 / (0.0324 + 0.0772179) = 9.1226013
// Published: 1 / 0.11² = 82.6446281, at 1.
//   for C: P = 82.6446281 + 2 · 9.1226013 = 100.8898307;  M = (82.6446281 + 9.1226013 · 2.0790642) / 100.8898307 = 1.0071491
//          prior N(1.0071491, 1/100.8898307 + 0.0324 = 0.0423118)
//   for A: P = 91.7672294;  M = (82.6446281 + 9.1226013 · 1.2474385) / 91.7672294 = 1.0245979;  variance 0.0432971
//   for B: the same P;      M = (82.6446281 + 9.1226013 · 0.8316257) / 91.7672294 = 0.9832619
// Learned: M over all, since C teaches nothing the same as for her; ± 1.2816 / √100.8898307 = ± 0.1275936; two cows
test('three cows: each is held to what the other two teach, and none to herself', () => {
  const cow = (second: number) =>
    animalWith([visit('2026-01-01', { a: top(10) }), visit('2026-03-03', { a: top(second) })]);
  const practice = practiceOf(
    farmWith('quernholt', { a: cow(20), b: cow(25) }),
    farmWith('harrowmere', { c: animalWith([visit('2026-01-01', { a: top(10) })]) }),
  );
  const { priorOf, learned } = pooledOn(practice, '2026-11-25').priors;
  expect(priorOf('harrowmere', 'c').mean).toBeCloseTo(1.0071491, 7);
  expect(priorOf('harrowmere', 'c').variance).toBeCloseTo(0.0423118, 7);
  expect(priorOf('quernholt', 'a').mean).toBeCloseTo(1.0245979, 7);
  expect(priorOf('quernholt', 'a').variance).toBeCloseTo(0.0432971, 7);
  expect(priorOf('quernholt', 'b').mean).toBeCloseTo(0.9832619, 7);
  expect(learned.mean).toBeCloseTo(1.0071491, 7);
  expect(learned.low).toBeCloseTo(1.0071491 - 0.1275936, 6);
  expect(learned.high).toBeCloseTo(1.0071491 + 0.1275936, 6);
  expect(learned).toMatchObject({ cows: 2, upTo: '2026-09-30' });
});

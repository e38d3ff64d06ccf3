import { expect, test } from 'vitest';
import { animalWith, gapOf, growthOf, top, visit } from '../growth/invented-animal.js';

// Worked by hand, to seven figures. No season.
//
// A gap on the heel line of an outer hind claw, calvings unknown: ρ = 6 mm a month, e = 0.13, e² = 0.0169.
// Prior: m = 1, V = 0.11² + 0.18² = 0.0121 + 0.0324 = 0.0445. Ruler: σ = 2, σ² = 4.
// 10 mm on 1 January 2026, 20 mm on 3 March: 61 days, τ = 61 / 30.4375 = 2.0041068 months.
//
// Expected   ρτ = 12.0246407;  μ = 10 + 12.0246407 = 22.0246407
// Variance   (ρτ)² (V + e²) = 144.5919829 · 0.0614 = 8.8779478
//            uneven (0.1 · 6)² · τ = 0.36 · 2.0041068 = 0.7214784
//            v = 4 + 8.8779478 + 0.7214784 = 13.5994262;  S = v + 4 = 17.5994262;  √S = 4.1951670
// z          (20 − 22.0246407) / 4.1951670 = −2.0246407 / 4.1951670 = −0.4826126
// Factor     gain ρτV / S = 0.5350965 / 17.5994262 = 0.0304042
//            g = 1 − 2.0246407 · 0.0304042 = 0.9384424;  Var g = 0.0445 − 0.5350965² / 17.5994262 = 0.0282308
// Deviation  gain ρτe² / S = 0.2032164 / 17.5994262 = 0.0115468;  h = −0.0233780
// Top        x = 22.0246407 − 2.0246407 · 13.5994262 / 17.5994262 = 20.4601606;  Var x = 13.5994262 · 4 / 17.5994262 = 3.0908795
// Rate       r = 6 (0.9384424 − 0.0233780) = 5.4903862 mm a month
//            Var(g + h) = 0.0614 − 0.7383129² / 17.5994262 = 0.0304271;  Var r = 36 · 0.0304271 = 1.0953741
//            Cov(x, r) = 6 · 0.7383129 · 4 / 17.5994262 = 1.0068232
//
// Wall 50 mm by ruler. Best: (50 − 20.4601606) / 5.4903862 = 5.3802844 months = 163.7624 days.
// At 10 and 90 %: (x + rτ − 50)² = 1.2815516² · (Var x + 4 + (2 Cov + 0.36) τ + Var r τ²), 1.2815516² = 1.6423744
//   28.3453263 τ² − 328.2686696 τ + 860.9562324 = 0  →  τ = 4.0139131 and 7.5671379 months
//   = 122.1735 and 230.3248 days; dates by the next whole day: 123, 164, 231 days after 3 March.
const animal = animalWith([
  visit('2026-01-01', { a: top(10, { wall: 50 }) }),
  visit('2026-03-03', { a: top(20) }),
]);

test('one line, two readings: what was expected, and what it teaches', () => {
  const growth = growthOf(animal);
  const [first, second] = growth.lesions[0]!.readings;
  expect(first).toMatchObject({ kind: 'first', topMm: 10, sigmaMm: 2, unused: false });
  expect(second!.kind).toBe('grew');
  expect(second!.expectedMm).toBeCloseTo(22.0246407, 6);
  expect(second!.sdMm).toBeCloseTo(4.195167, 6);
  expect(second!.z).toBeCloseTo(-0.4826126, 6);
  expect(growth.factor.mean).toBeCloseTo(0.9384424, 6);
  expect(growth.factor.variance).toBeCloseTo(0.0282308, 6);
});

test('one line, two readings: when it should be out', () => {
  const { forecast } = gapOf(animal);
  if (forecast.outcome === 'none') throw new Error(forecast.why);
  expect(forecast.from).toBe('2026-03-03');
  expect(forecast.days.early).toBeCloseTo(122.1735, 3);
  expect(forecast.days.best).toBeCloseTo(163.7624, 3);
  expect(forecast.days.late).toBeCloseTo(230.3248, 3);
  expect(forecast.out).toEqual({ early: '2026-07-04', best: '2026-08-14', late: '2026-10-20' });
});

// 61 days on, τ = 2.0041068: mean 20.4601606 + 5.4903862 τ = 31.4634808
// variance 3.0908795 + 2 · 1.0068232 τ + 1.0953741 τ² + 0.36 τ = 12.2474290; with the ruler 16.2474290, sd 4.0308100
// 80 %: 31.4634808 ± 1.2816 · 4.0308100 = ± 5.1658861;  alarm 31.4634808 − 2 · 4.0308100 = 23.4018608
test('one line, two readings: what the next one should show', () => {
  const next = gapOf(animal).nextReading('2026-05-03')!;
  expect(next.meanMm).toBeCloseTo(31.4634808, 6);
  expect(next.sdMm).toBeCloseTo(4.03081, 6);
  expect(next.lowMm).toBeCloseTo(31.4634808 - 5.1658861, 6);
  expect(next.highMm).toBeCloseTo(31.4634808 + 5.1658861, 6);
  expect(next.alarmMm).toBeCloseTo(23.4018608, 6);
});

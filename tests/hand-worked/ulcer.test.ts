import { expect, test } from 'vitest';
import { closingOfUlcer } from '../../src/healing/closing/closing-of-ulcer.js';
import { animalWith, visit } from '../growth/invented-animal.js';

// A sole ulcer 20 mm wide on 1 January, 14 mm wide 28 days later, both by ruler and one person: one margin is at −10, then −7,
// each with SD 1. ρ = 7.6, τ = 28 / 30.4375 = 0.9199179, ρτ = 6.9913758, (ρτ)² = 48.8793352, f ~ N(1, 0.16).
//   expected  μ = −10 + 6.9913758 = −3.0086242: 6.0172485 mm wide
//   variance  v = 1 + 48.8793352 · 0.16 + 0.5776 · 0.9199179 = 1 + 7.8206936 + 0.5313446 = 9.3520382;  sd = √10.3520382 = 3.2174583
//   z         (−7 + 3.0086242) / 3.2174583 = −1.2405369
//   f         1 + 6.9913758 · 0.16 / 10.3520382 · (−3.9913758) = 0.5687001;  Var f = 0.16 − 1.1186201² / 10.3520382 = 0.0391242
//   margin    x = −3.0086242 + 9.3520382 / 10.3520382 · (−3.9913758) = −6.6144358;  Var x = 0.9034007;  Cov(x, ρ f)/ρ = 1.1186201 · 0.0965993 = 0.1080580
// Best: x + 7.6 · 0.5687001 τ = 0 at τ = 1.5303682, day 46.580581. Range, by bisection of Φ(μ(t)/√v(t)) in another language: 27.082020 to 96.591340.
test('an ulcer with two widths', () => {
  const width = (mm: number) => ({ u: { state: 'open' as const, width: mm, tool: 'ruler' as const } });
  const animal = animalWith([visit('2026-01-01', width(20)), visit('2026-01-29', width(14))], {
    lesions: { u: { code: 'SU', foot: 'LH', claw: 'outer' } },
  });
  const closing = closingOfUlcer(animal, 'u', '2026-11-25')!;
  const second = closing.readings[1]!;
  expect(second).toMatchObject({ kind: 'as-expected', unused: false, sigmaMm: 2 });
  expect(second.expectedMm).toBeCloseTo(6.0172485, 6);
  expect(second.sdMm).toBeCloseTo(2 * 3.2174583, 6);
  expect(second.z).toBeCloseTo(-1.2405369, 6);
  expect(closing.factor.mean).toBeCloseTo(0.5687001, 6);
  expect(closing.factor.variance).toBeCloseTo(0.0391242, 6);
  expect(closing).toMatchObject({ rough: true, from: '2026-01-29', closed: [], cameBack: [] });
  if (closing.forecast.outcome !== 'range') expect.unreachable();
  expect(closing.forecast.days.early).toBeCloseTo(27.08202, 5);
  expect(closing.forecast.days.best).toBeCloseTo(46.580581, 5);
  expect(closing.forecast.days.late).toBeCloseTo(96.59134, 5);
});

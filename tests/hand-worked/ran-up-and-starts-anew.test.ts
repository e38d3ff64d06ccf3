import { expect, test } from 'vitest';
import { animalWith, growthOf, top, visit } from '../growth/invented-animal.js';

// The line of one-line.test.ts, read again on 3 May (61 days, τ = 2.0041068) at 12 mm, on 3 July (61 days) at 24 mm.
//
// Third reading   μ = 20.4601606 + 5.4903862 τ = 31.4634808;  √S = 4.0308100 (worked there)
//                 z = (12 − 31.4634808) / 4.0308100 = −4.8286773: below −3
//                 above: 12 < 20 − 2 √(4 + 4) = 14.3431458, so it ran up and is no mere standing still
//                 ran up by 31.4634808 − 12 = 19.4634808 mm, at 5.4903862 mm a month 3.5450112 months lost
// It starts anew at 12 with variance 4 and no tie to the rate; what factor and deviation learned stays.
// Fourth reading  μ = 12 + 5.4903862 τ = 23.0033202
//                 v = 4 + Var r τ² + 0.36 τ = 4 + 1.0953741 · 4.0164440 + 0.7214784 = 9.1209872;  S = 13.1209872;  √S = 3.6222903
//                 z = (24 − 23.0033202) / 3.6222903 = 0.2751518
// Factor          Cov(g, g + h) = 0.0282308 − 0.5350965 · 0.2032164 / 17.5994262 = 0.0282308 − 0.0061786 = 0.0220522
//                 with the point: ρτ · 0.0220522 = 12.0246407 · 0.0220522 = 0.2651696
//                 g = 0.9384424 + 0.2651696 / 13.1209872 · 0.9966798 = 0.9585849
//                 Var g = 0.0282308 − 0.2651696² / 13.1209872 = 0.0228719
test('a gap that runs up starts anew and keeps what was learned', () => {
  const growth = growthOf(
    animalWith([
      visit('2026-01-01', { a: top(10) }),
      visit('2026-03-03', { a: top(20) }),
      visit('2026-05-03', { a: top(12) }),
      visit('2026-07-03', { a: top(24) }),
    ]),
  );
  const [, , third, fourth] = growth.lesions[0]!.readings;
  expect(third!.kind).toBe('ran-up');
  expect(third!.z).toBeCloseTo(-4.8286773, 6);
  expect(third!.ranUpMm).toBeCloseTo(19.4634808, 6);
  expect(third!.lostMonths).toBeCloseTo(3.5450112, 6);
  expect(fourth!.kind).toBe('grew');
  expect(fourth!.expectedMm).toBeCloseTo(23.0033202, 6);
  expect(fourth!.sdMm).toBeCloseTo(3.6222903, 6);
  expect(fourth!.z).toBeCloseTo(0.2751518, 6);
  expect(growth.factor.mean).toBeCloseTo(0.9585849, 6);
  expect(growth.factor.variance).toBeCloseTo(0.0228719, 6);
});

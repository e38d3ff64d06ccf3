import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { erfc, normalCdf, normalQuantile } from '../../src/statistics/normal.js';

// Worked out to 40 digits with arbitrary-precision arithmetic (mpmath), written to 17; they cover every range of the
// approximations and its borders. Those from −3 to 3 are also in every printed table of the normal distribution.
const below: [z: number, chance: number][] = [
  [-37.0, 5.725571222524577e-300],
  [-20.0, 2.7536241186062337e-89],
  [-8.5, 9.479534822203318e-18],
  [-6.0, 9.86587645037698e-10],
  [-5.0, 2.866515718791939e-7],
  [-3.0, 0.0013498980316300946],
  [-2.0, 0.02275013194817921],
  [-1.2816, 0.09999150009767516],
  [-0.6, 0.2742531177500736],
  [-0.5, 0.3085375387259869],
  [-0.25, 0.4012936743170763],
  [0.0, 0.5],
  [0.3, 0.6179114221889527],
  [0.66, 0.7453730853286639],
  [0.67, 0.7485711049046899],
  [1.0, 0.8413447460685429],
  [1.645, 0.9500150944608786],
  [1.96, 0.9750021048517795],
  [3.0, 0.9986501019683699],
  [4.5, 0.9999966023268753],
  [5.6, 0.9999999892824097],
  [5.7, 0.9999999940096286],
  [8.0, 0.9999999999999993],
];

const quantiles: [chance: number, z: number][] = [
  [1e-300, -37.0470962993612],
  [1e-100, -21.273453560965326],
  [1e-20, -9.262340089798407],
  [1e-12, -7.034483825301132],
  [1e-10, -6.361340902404057],
  [1e-6, -4.753424308822899],
  [0.001, -3.0902323061678136],
  [0.025, -1.9599639845400543],
  [0.05, -1.6448536269514726],
  [0.074, -1.4466320671589785],
  [0.076, -1.4325027208258116],
  [0.1, -1.2815515655446004],
  [0.25, -0.6744897501960817],
  [0.6, 0.2533471031357997],
  [0.75, 0.6744897501960817],
  [0.9, 1.2815515655446006],
  [0.925, 1.4395314709384561],
  [0.95, 1.6448536269514722],
  [0.975, 1.9599639845400538],
  [0.99, 2.3263478740408408],
  [0.999, 3.090232306167813],
  [0.999999, 4.753424308817087],
];

describe('the chance of falling below', () => {
  // Relative. The argument itself is only known to 1e-16 of its size, which the far tail magnifies z² times.
  test.each(below)('at %f', (z, chance) => {
    expect(Math.abs(normalCdf(z) / chance - 1)).toBeLessThan(2e-15 + 1e-16 * z * z);
  });

  test('both sides together are 1', () => {
    fc.assert(
      fc.property(fc.double({ min: -8, max: 8, noNaN: true }), (z) => {
        expect(normalCdf(z) + normalCdf(-z)).toBeCloseTo(1, 15);
      }),
    );
  });

  test('never falls as z rises, across the borders of the approximations too', () => {
    const points = Array.from({ length: 4001 }, (_, index) => (index - 2000) / 100);
    const values = points.map(normalCdf);
    expect(values.every((value, index) => index === 0 || value >= values[index - 1]!)).toBe(true);
  });

  test('ends', () => {
    expect(erfc(0)).toBe(1);
    expect(normalCdf(-40)).toBe(0);
    expect(normalCdf(40)).toBe(1);
    expect(normalCdf(Number.NaN)).toBeNaN();
  });
});

describe('the quantile', () => {
  test.each(quantiles)('at %f', (chance, z) => {
    expect(Math.abs(normalQuantile(chance) - z)).toBeLessThan(1e-15 * Math.max(1, Math.abs(z)));
  });

  test('is the inverse of the chance, 1e-12', () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 5, noNaN: true }), (z) => {
        // The chance near 1 is coarse in itself: 1e-16 of chance is 1e-16 / density of z.
        const coarse = 2e-16 / Math.exp((-z * z) / 2);
        expect(Math.abs(normalQuantile(normalCdf(z)) - z)).toBeLessThan(1e-12 + 10 * coarse);
      }),
    );
  });

  test('ends', () => {
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
    expect(normalQuantile(0.5)).toBe(0);
    expect(normalQuantile(-0.1)).toBeNaN();
    expect(normalQuantile(1.1)).toBeNaN();
  });
});

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Interval, interval } from '../../src/statistics/estimate.js';
import { permutationTest } from '../../src/statistics/permutation-test.js';
import { seededRandom } from '../../src/statistics/seeded-random.js';

const settings = { seed: 20261125, numRuns: 40 };

const seen = fc
  .tuple(fc.integer({ min: 0, max: 60 }), fc.constantFrom(0, 7, 14, Infinity))
  .map(([after, more]) => interval(after, after + more));
const animal = fc.array(seen, { minLength: 1, maxLength: 3 });
const group = fc.array(animal, { minLength: 1, maxLength: 4 });

test('p is above 0 and at most 1, the groups change places with the sign, order and scale do not matter', () => {
  fc.assert(
    fc.property(group, group, fc.constantFrom(7, 24), (first, second, scale) => {
      const { difference, p } = permutationTest(first, second, { seed: 1 });
      expect(p).toBeGreaterThan(0);
      expect(p).toBeLessThanOrEqual(1);
      const swapped = permutationTest(second, first, { seed: 1 });
      expect(swapped.p).toBe(p);
      expect(swapped.difference).toBeCloseTo(-difference, 6);
      expect(permutationTest([...first].reverse(), second, { seed: 1 }).p).toBe(p);
      const scaled = (clusters: Interval[][]) =>
        clusters.map((cluster) => cluster.map(({ after, by }) => interval(after * scale, by * scale)));
      expect(permutationTest(scaled(first), scaled(second), { seed: 1 }).p).toBe(p);
    }),
    settings,
  );
});

test('two groups alike: no difference, and p is 1', () => {
  fc.assert(
    fc.property(group, (alike) => {
      const { difference, p } = permutationTest(alike, structuredClone(alike), { seed: 1 });
      expect(difference).toBeCloseTo(0, 6);
      expect(p).toBe(1);
    }),
    settings,
  );
});

// Under blind dealing p falls below 0.05 in at most one of twenty. 300 pairs of groups, 10 animals each, seen every 14 days,
// times from one spread: 15 expected, sd 3.8; the seed is fixed.
test('groups that do not differ are distinguished about one time in twenty, clusters or not', () => {
  const { below } = seededRandom(77);
  const part = (): number => (below(1_000_000) + 0.5) / 1_000_000;
  const oneAnimal = (): Interval[] => {
    const slow = 20 + 60 * part();
    return Array.from({ length: 1 + below(3) }, () => {
      const looks = Math.floor((-slow * Math.log(part())) / 14);
      return looks < 6 ? interval(14 * looks, 14 * (looks + 1)) : interval(84, Infinity);
    });
  };
  let apart = 0;
  for (let run = 0; run < 300; run++) {
    const groups = [0, 1].map(() => Array.from({ length: 10 }, oneAnimal));
    const { p } = permutationTest(groups[0]!, groups[1]!, { seed: run, draws: 199, exactUpTo: 0 });
    if (p <= 0.05) apart += 1;
  }
  expect(apart).toBeGreaterThan(4);
  expect(apart).toBeLessThan(27);
});

import { describe, expect, test } from 'vitest';
import {
  drawnChoices,
  everyChoice,
  combinations,
  type Clusters,
  permutationTest,
} from '../../src/statistics/permutation-test.js';
import { interval } from '../../src/statistics/estimate.js';

const at = (...times: number[]) => times.map((time) => [interval(time, time)]);
const meansApart = (first: Clusters<number>, second: Clusters<number>): number => {
  const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return mean(first.flat()) - mean(second.flat());
};

describe('all dealings, by hand', () => {
  // 1, 2, 3 against 4, 5, 6: of the 20 dealings only this one and its mirror are so far apart. p = 2/20.
  test('three against three, quite apart', () => {
    const { difference, p, dealings, exact } = permutationTest(at(1, 2, 3), at(4, 5, 6), { seed: 1 });
    expect(p).toBe(0.1);
    expect(dealings).toBe(20);
    expect(exact).toBe(true);
    // Hazard 1/6, +1/5, +1/4: scores 1 − 10/60, 1 − 22/60, 1 − 37/60. Sum 3 − 69/60 = 1.85: above 0, the first came sooner.
    expect(difference).toBeCloseTo(1.85, 10);
  });

  // 1, 3 against 2, 4: means 2 and 3. The six dealings differ by −2, −1, 0, 0, 1, 2: four are at least 1 from 0. p = 4/6.
  test('a difference of our own', () => {
    const given = permutationTest([[1], [3]], [[2], [4]], { seed: 1, difference: meansApart });
    expect(given).toEqual({ difference: -1, p: 4 / 6, dealings: 6, exact: true });
  });

  // The clusters {1, 1, 1} and {2} against {3} and {4}: six dealings, not as many as single values would give.
  test('whole clusters are dealt', () => {
    expect(permutationTest([[1, 1, 1], [2]], [[3], [4]], { seed: 1, difference: meansApart }).dealings).toBe(
      6,
    );
  });
});

test('drawn dealings: p is counted with the observed one, so never 0', () => {
  const first = at(...Array.from({ length: 12 }, (_, k) => k + 1));
  const second = at(...Array.from({ length: 12 }, (_, k) => k + 101));
  const { p, dealings, exact } = permutationTest(first, second, { seed: 4, draws: 999 });
  expect(exact).toBe(false);
  expect(dealings).toBe(999);
  expect(p).toBe(1 / 1000);
  expect(permutationTest(first, second, { seed: 4 })).toMatchObject({ dealings: 9999, p: 1 / 10_000 });
});

// 8 against 8 has 12 870 dealings, all gone through; 4000 drawn ones should come within four errors of the share,
// 4 · √(p (1 − p)/4000).
test('drawn dealings come near all of them', () => {
  const first = at(1, 4, 5, 8, 9, 12, 14, 15);
  const second = at(2, 3, 7, 10, 11, 13, 16, 17);
  const all = permutationTest(first, second, { seed: 1 });
  const drawn = permutationTest(first, second, { seed: 1, draws: 4000, exactUpTo: 0 });
  expect(all.dealings).toBe(12_870);
  expect(Math.abs(drawn.p - all.p)).toBeLessThan(4 * Math.sqrt((all.p * (1 - all.p)) / 4000));
});

test('the seed settles the drawn dealings', () => {
  const run = (seed: number) =>
    permutationTest(at(1, 4, 5), at(2, 3, 7), { seed, draws: 99, exactUpTo: 0 }).p;
  expect(run(8)).toBe(run(8));
  expect(new Set([1, 2, 3, 4, 5].map(run)).size).toBeGreaterThan(1);
});

describe('choices', () => {
  test('all of them, each once', () => {
    const choices = [...everyChoice(6, 3)].map((places) => places.join(''));
    expect(choices).toHaveLength(combinations(6, 3));
    expect(new Set(choices).size).toBe(20);
    expect([...everyChoice(3, 3)]).toEqual([[0, 1, 2]]);
  });

  // 2 out of 4 under 6000 seeds, six pairs: χ² with five degrees of freedom passes 20.5 once in a thousand; seeds are fixed.
  test('the first one drawn is as likely to be any', () => {
    const seen = new Map<string, number>();
    for (let seed = 0; seed < 6000; seed++) {
      const [places] = [...drawnChoices(4, 2, { seed, draws: 1 })];
      const pair = places!.sort((a, b) => a - b).join('');
      seen.set(pair, (seen.get(pair) ?? 0) + 1);
    }
    expect(seen.size).toBe(6);
    expect([...seen.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0)).toBeLessThan(20.5);
  });
});

describe('refused', () => {
  test('an empty group, no draws, a difference that is no number', () => {
    expect(() => permutationTest([], at(1), { seed: 1 })).toThrow(RangeError);
    expect(() => permutationTest(at(1), [], { seed: 1 })).toThrow(RangeError);
    expect(() => permutationTest(at(1), at(2), { seed: 1, draws: 0 })).toThrow(RangeError);
    expect(() => permutationTest(at(1), at(2), { seed: 1, difference: () => Number.NaN })).toThrow(
      RangeError,
    );
  });
});

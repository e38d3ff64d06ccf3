import { expect, test } from 'vitest';
import { trackRecord } from '../../src/growth/track-record/track-record.js';
import { digestOf } from '../../src/herd/farm-digest.js';
import { animalWith, top, visit } from '../growth/invented-animal.js';
import { farmWith } from '../growth/invented-practice.js';

// A heel gap read once, 30 mm by ruler on 1 January; wall not measured: 42 mm, SD 7. On day t, τ = t / 30.4375:
//   μ = 30 + 6 τ;  v = 4 + (6 τ)² · (0.0445 + 0.0169) + 0.36 τ;  F = Φ((μ − 42) / √(v + 49));  best: τ = 2, day 60.875
//   day 0    μ = 30         v = 4            F = Φ(−12 / 7.2801099) = 0.0496428
//   day 14   μ = 32.759754  v = 4.6332223    F = Φ(−9.2402464 / 7.3234706) = 0.1035229
//   day 31   μ = 36.110883  v = 6.6595065    F = Φ(−5.8891170 / 7.4605299) = 0.2149479
//   day 91   μ = 47.938398  v = 24.8339726   F = Φ(5.9383984 / 8.5927861) = 0.7552488
// First gap: still open on day 31, healed by day 91. All of 0.2149 to 0.7552 lies inside 0.1 to 0.9: share 1. Best within: error 0.
// Second: healed by day 14, last open on day 0. (0.1035229 − 0.1) / (0.1035229 − 0.0496428) = 0.0653838. Error 60.875 − 14 = 46.875.
test('two healed gaps, scored by hand', () => {
  const healed = { a: { state: 'healed' as const } };
  const first = animalWith([
    visit('2026-01-01', { a: top(30) }),
    visit('2026-02-01', { a: { state: 'open' } }),
    visit('2026-04-02', healed),
  ]);
  const second = animalWith([visit('2026-01-01', { a: top(30) }), visit('2026-01-15', healed)]);
  const record = trackRecord([digestOf(farmWith('quernholt', { first, second }), '2026-11-25')]);
  const [one, two] = record.gaps.map(({ scores }) => scores);
  expect(one).toHaveLength(1);
  expect(one![0]!.inRange).toBe(1);
  expect(one![0]!.errorDays).toBe(0);
  expect(two![0]!.inRange).toBeCloseTo(0.0653838, 7);
  expect(two![0]!.errorDays).toBeCloseTo(46.875, 6);
  expect(record).toMatchObject({ forecasts: 2, withoutForecast: 0, leftOut: 0 });
});

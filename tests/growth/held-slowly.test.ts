import { expect, test } from 'vitest';
import { animalWith, gap, gapOf, growthOf, top, visit } from './invented-animal.js';

const days = ['2026-01-01', '2026-01-29', '2026-02-26', '2026-03-26', '2026-04-23'];
const readings = (...lengths: number[]) => lengths.map((mm, k) => visit(days[k]!, { a: top(mm) }));

// Heel, ruler, four-weekly; ρ = 6. 2 mm in eight weeks (56 days): ρτ = 11.0390,
// z = (2 − 11.0390) / √(4 + 4 + 121.8597 · 0.0614 + 0.36 · 1.8398) = −9.0390 / 4.01803 = −2.24961: it may be held, and has no date.
test('a gap that does not move over eight weeks is held, though each step looked possible', () => {
  const held = gapOf(animalWith(readings(20, 21, 22)));
  expect(held.readings.map(({ kind }) => kind)).toEqual(['first', 'grew', 'grew']);
  expect(held.heldNow!.since).toBe('2026-01-01');
  expect(held.heldNow!.z).toBeCloseTo(-2.24961, 4);
  expect(held.heldNow!.sure).toBe(false);
  expect(held.forecast).toMatchObject({ outcome: 'none', why: 'held' });
  expect(held.from).toBe('2026-02-26');
});

// 1 mm in twelve weeks (84 days): ρτ = 16.5585, z = (1 − 16.5585) / √(4 + 4 + 274.184 · 0.0614 + 0.36 · 2.75975) = −3.0614.
test('below −3 it is called held, from −2 to −3 only that it may be', () => {
  const held = gapOf(animalWith(readings(20, 21, 20, 21)));
  expect(held.heldNow!.z).toBeCloseTo(-3.0614, 3);
  expect(held.heldNow!.sure).toBe(true);
});

test('less than six weeks cannot tell', () => {
  expect(gapOf(animalWith(readings(20, 20))).heldNow).toBeUndefined();
});

// Nothing in six weeks (42 days): ρτ = 8.27926, z = −8.27926 / √(4 + 4 + 68.5461 · 0.0614 + 0.36 · 1.37988) = −8.27926 / 3.56440 = −2.32276.
test('six weeks to the day can', () => {
  const still = (day: string) =>
    gapOf(animalWith([visit('2026-01-01', { a: top(20) }), visit(day, { a: top(20) })])).heldNow;
  expect(still('2026-02-12')).toMatchObject({ since: '2026-01-01', sure: false });
  expect(still('2026-02-12')!.z).toBeCloseTo(-2.32276, 4);
  expect(still('2026-02-11')).toBeUndefined();
});

test('a standing gap does not teach slow horn: neither itself nor her other lines', () => {
  const growth = growthOf(animalWith(readings(20, 21, 22)));
  expect(growth.factor).toEqual(growth.prior);
  expect(growth.lesions[0]!.readings.map(({ unused }) => unused)).toEqual([true, true, false]);
});

test('kinds of a held line stay those of the first time through; those of her other lines are worked out without it', () => {
  const lesions = { a: gap, b: { ...gap, claw: 'inner' as const } };
  const both = [20, 21, 22].map((mm, k) => visit(days[k]!, { a: top(mm), b: top(10 + 6 * k) }));
  const alone = [0, 1, 2].map((k) => visit(days[k]!, { b: top(10 + 6 * k) }));
  const withHeld = growthOf(animalWith(both, { lesions }));
  const without = growthOf(animalWith(alone, { lesions }));
  expect(withHeld.factor).toEqual(without.factor);
  expect(withHeld.lesions[1]).toMatchObject({ readings: without.lesions[1]!.readings });
  const first = growthOf(animalWith(both.slice(0, 2), { lesions }), '2026-02-01').lesions[0]!.readings[1]!;
  expect(withHeld.lesions[0]!.readings[1]!.expectedMm).toBe(first.expectedMm);
});

test('a stretch is broken where the top was above the reading before it', () => {
  // 28 → 12: ran up; from there it comes down as it should
  const broken = gapOf(animalWith(readings(22, 28, 12, 18, 24)));
  expect(broken.readings.map(({ kind }) => kind)).toEqual(['first', 'grew', 'ran-up', 'grew', 'grew']);
  expect(broken.heldNow).toBeUndefined();
});

test('of readings six weeks to 120 days before, the earliest is compared; a longer way back does not hide a gap that is there now', () => {
  const visits = [
    visit('2025-09-01', { a: top(6) }),
    visit('2025-11-01', { a: top(18) }),
    ...[28, 29, 28, 29].map((mm, k) => visit(days[k]!, { a: top(mm) })),
  ];
  // 26 March − 120 days = 26 November: the reading of 1 January is the earliest after that.
  expect(gapOf(animalWith(visits)).heldNow!.since).toBe('2026-01-01');
});

test('none so near: the latest of those further back is compared', () => {
  const visits = [
    visit('2025-01-01', { a: top(5) }),
    visit('2025-02-01', { a: top(8) }),
    visit('2025-08-01', { a: top(10) }),
  ];
  const found = gapOf(animalWith(visits));
  expect(found.heldNow!.since).toBe('2025-02-01');
});

test('held once and coming down since: a date is given again, from the readings since', () => {
  const visits = [
    ...readings(20, 21, 22),
    visit('2026-05-01', { a: top(33) }),
    visit('2026-07-01', { a: top(45) }),
  ];
  const gapNow = gapOf(animalWith(visits));
  expect(gapNow.heldNow).toBeUndefined();
  expect(gapNow.forecast.outcome).toBe('range');
  expect(gapNow.readings.map(({ unused }) => unused)).toEqual([true, true, false, false, false]);
});

test('held by its last reading alone: since the reading before it', () => {
  const { readings: list, heldNow } = gapOf(animalWith(readings(20, 15)));
  expect(list[1]!.kind).toBe('held');
  expect(heldNow).toEqual({ since: '2026-01-01', z: list[1]!.z, sure: true });
});

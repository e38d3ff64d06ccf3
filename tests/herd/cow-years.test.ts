import { expect, test } from 'vitest';
import { cowYears, herdStretches } from '../../src/herd/cow-years.js';

test('a list of periods is cut where they begin; before the first the herd is not known', () => {
  const herd = [
    { from: '2026-01-11', cows: 100 },
    { from: '2026-01-31', housing: 'grazed' as const },
  ];
  expect(herdStretches({ herd }, '2026-01-01', '2026-03-01')).toEqual([
    { from: '2026-01-01', until: '2026-01-11', cows: undefined },
    { from: '2026-01-11', until: '2026-01-31', cows: 100 },
    { from: '2026-01-31', until: '2026-03-01', cows: undefined },
  ]);
  // 100 cows for 20 days: 2000 cow-days of 365.25.
  expect(cowYears(herdStretches({ herd }, '2026-01-01', '2026-03-01'))).toBeCloseTo(2000 / 365.25, 12);
});

test('one map holds always; no herd and no time give nothing', () => {
  const always = herdStretches({ herd: { from: '2026-06-01', cows: 92 } }, '2026-01-01', '2027-01-01');
  expect(cowYears(always)).toBeCloseTo((92 * 365) / 365.25, 12);
  expect(cowYears(herdStretches({}, '2026-01-01', '2027-01-01'))).toBe(0);
  expect(herdStretches({ herd: { cows: 92 } }, '2026-01-01', '2026-01-01')).toEqual([]);
  expect(herdStretches({ herd: [{ cows: 92 }] }, '2026-01-01', '2026-01-01')).toEqual([]);
});

test('the order the periods are written in does not matter', () => {
  const herd = [{ from: '2026-03-01', cows: 50 }, { cows: 100 }];
  const stretches = herdStretches({ herd }, '2026-01-01', '2026-05-01');
  expect(stretches.map(({ cows }) => cows)).toEqual([100, 50]);
  expect(stretches).toEqual(herdStretches({ herd: herd.toReversed() }, '2026-01-01', '2026-05-01'));
});

import { expect, test } from 'vitest';
import { caseCosts } from '../../src/money/costs.js';
import { sumAsText } from '../../src/money/hundredths.js';
import { daysBetween } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Business } from '../../src/record/business.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, visit } from '../herd/invented-herd.js';
import { priced, worked } from './worked.js';

const today = '2026-06-16';
const top = (mm: number) => ({ state: 'open', top: mm, wall: 42, tool: 'ruler' }) as const;
const growing: Visit[] = [
  visit('2026-03-03', { found: { a: top(20) }, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }),
  visit('2026-03-31', { found: { a: top(26) } }),
  visit('2026-04-28', { found: { a: top(31.5) } }),
];

function finishOf(animal: Animal, business: Business = priced, day = today) {
  const { farm, work } = worked(animal, day, { business });
  return { ...caseCosts(business, farm, work, day)!, work };
}

test('days run to both ends of her own forecast; visits and blocks at her pace, by hand', () => {
  const { toFinish, work } = finishOf(cow('1', growing));
  const forecast = work.growth.case;
  if (forecast.outcome !== 'range' || toFinish?.outcome !== 'range') throw new Error('no range');
  const low = Math.max(0, daysBetween(today, forecast.out.early!));
  const high = daysBetween(today, forecast.out.late!);
  expect(high).toBeGreaterThan(low);
  expect(toFinish.days).toEqual({ low, high });
  // Nothing is planned; the last two lifts, 31 March and 28 April, lie 28 days apart. One block in three visits.
  expect(toFinish.pace).toEqual({ everyDays: 28, from: 'last-two', visits: 3, blocks: 1 });
  const visits = { low: Math.ceil(low / 28), high: Math.ceil(high / 28) };
  expect(toFinish.visits).toEqual(visits);
  expect(toFinish.blocks).toEqual({ low: Math.ceil(visits.low / 3), high: Math.ceil(visits.high / 3) });
  const sum = (n: number) => (n * 45 + Math.ceil(n / 3) * 14.5).toFixed(2);
  expect([toFinish.sum!.low, toFinish.sum!.high].map(sumAsText)).toEqual([sum(visits.low), sum(visits.high)]);
});

test('an ulcer and a gap: the later of the two at each end', () => {
  const both = growing.map((one, at) => ({
    ...one,
    found: {
      ...one.found,
      u: { state: 'open', width: 14 - 3 * at, length: 20 - 3 * at, tool: 'ruler' } as const,
    },
  }));
  const animal = cow('1', both, {
    lesions: {
      a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
      u: { code: 'SU', foot: 'RH', claw: 'outer' },
    },
  });
  const { toFinish, work } = finishOf(animal, priced, '2026-04-29');
  const gap = work.growth.case;
  const ulcer = work.closings[0]!.forecast;
  if (gap.outcome !== 'range' || ulcer.outcome !== 'range' || toFinish?.outcome !== 'range')
    throw new Error('no range');
  const later = (a: string, b: string) => daysBetween('2026-04-29', a > b ? a : b);
  expect(toFinish.days).toEqual({
    low: later(gap.out.early!, ulcer.out.early!),
    high: later(gap.out.late!, ulcer.out.late!),
  });
});

test('by hand: a range from 14 July to 9 September, seen on 16 June by one who comes every 28 days', () => {
  const { farm, work } = worked(cow('1', growing), today);
  const out = { early: '2026-07-14', best: '2026-08-11', late: '2026-09-09' };
  const [gap] = work.growth.lesions;
  const range = { outcome: 'range', from: today, days: { early: 28, best: 56, late: 85 }, out } as const;
  const forecast = { ...range, ifSoundHornFollows: false };
  const fixed = { ...work, growth: { ...work.growth, case: forecast, lesions: [{ ...gap!, forecast }] } };
  const { toFinish } = caseCosts(priced, farm, fixed, today)!;
  if (toFinish?.outcome !== 'range') throw new Error('no range');
  // To 14 July 28 days: 1 visit. To 9 September 85 days: 85 / 28 = 3.04, so 4 visits.
  expect(toFinish.visits).toEqual({ low: 1, high: 4 });
  // A block in every third visit: 1 / 3 and 4 / 3, rounded up.
  expect(toFinish.blocks).toEqual({ low: 1, high: 2 });
  // 45 + 14.50; 4 × 45 + 2 × 14.50
  expect([toFinish.sum!.low, toFinish.sum!.high].map(sumAsText)).toEqual(['59.50', '209.00']);
});

test('the pace is the one planned: 6 weeks to her next lift, whatever lies between the lifts so far', () => {
  const planned = [...growing.slice(0, 2), { ...growing[2]!, recheck: '2026-06-09' }];
  const { toFinish } = finishOf(cow('1', planned));
  expect(toFinish).toMatchObject({ pace: { everyDays: 42, from: 'planned' } });
});

test('one visit has no pace: days are given, visits and blocks are not', () => {
  const { toFinish } = finishOf(cow('1', growing.slice(0, 1)), priced, '2026-03-10');
  expect(toFinish).toMatchObject({ outcome: 'range' });
  expect(toFinish).not.toHaveProperty('pace');
  expect(toFinish).not.toHaveProperty('visits');
  expect(toFinish).not.toHaveProperty('sum');
});

test('a price that is missing leaves the sum out, not the count', () => {
  const { toFinish } = finishOf(cow('1', growing), { prices: { currency: 'GBP', visit: 45 } });
  expect(toFinish).toHaveProperty('blocks');
  expect(toFinish).not.toHaveProperty('sum');
});

test('without a date for one gap nothing is given, and which one is said', () => {
  const infected = [...growing, visit('2026-05-26', { found: { a: { ...top(37), infected: true } } })];
  expect(finishOf(cow('1', infected)).toFinish).toEqual({ outcome: 'none', why: 'no-date', lesions: ['a'] });
});

test('lesions that never have a date are named: beside a gap, and alone', () => {
  const lesions = {
    a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
    c: { code: 'DD', foot: 'RH' },
  } as const;
  const skin = { stage: 'M2' } as const;
  const beside = growing.map((one) => ({ ...one, found: { ...one.found, c: skin } }));
  expect(finishOf(cow('1', beside, { lesions })).toFinish).toMatchObject({
    outcome: 'range',
    without: ['c'],
  });
  const alone = growing.map((one) => ({ ...one, found: { c: skin } }));
  expect(finishOf(cow('1', alone, { lesions: { c: lesions.c } })).toFinish).toEqual({
    outcome: 'none',
    why: 'nothing-dated',
    lesions: ['c'],
  });
});

test('a range that lies behind promises nothing', () => {
  expect(finishOf(cow('1', growing), priced, '2029-06-16').toFinish).toEqual({
    outcome: 'none',
    why: 'past',
    lesions: [],
  });
});

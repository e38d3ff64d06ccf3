import { expect, test } from 'vitest';
import { seasonFrom, growingConditions } from '../../src/growth/growth-line.js';
import { dayNumber } from '../../src/record/calendar-day.js';

const months = (from: string, to: string, conditions: Parameters<typeof growingConditions>[0]) =>
  seasonFrom(dayNumber(from), growingConditions(conditions)).monthsAfter(dayNumber(to) - dayNumber(from));

// 21 June 2000 to 21 June 2004 is 1461 days, four turns of 365.25 exactly: the phase is 0 there again.
// From 21 June 2004 the quarter turn ends after 91.3125 days; 91 days, to 20 September 2004, are 91/365.25 turns:
// sin(2π · 91/365.25) = sin(1.5654210) = 0.9999856. A·(365.25/2π) = 0.12 · 58.1313429 = 6.9757611.
// τ = (91 + 6.9757611 · 0.9999856) / 30.4375 = 97.9756606 / 30.4375 = 3.2189129 months; without season 2.9897331.
test('a summer quarter at grass brings more growth than its days', () => {
  expect(
    months('2004-06-21', '2004-09-20', { hemisphere: 'north', herd: { housing: 'grazed' } }),
  ).toBeCloseTo(3.2189129, 6);
  expect(months('2004-06-21', '2004-09-20', {})).toBeCloseTo(2.9897331, 6);
});

// The same days in the south: peak 21 December 2000, 183 days later. Phases from −183 − … :
// sin(2π (1461 − 183)/365.25) = sin(2π · 3.4989733) = sin(π − 0.0064509…) = 0.0064509
// sin(2π (1552 − 183)/365.25) = sin(2π · 3.7481177) = −0.9999300
// τ = (91 + 6.9757611 · (−0.9999300 − 0.0064509)) / 30.4375 = (91 − 7.0202730) / 30.4375 = 2.7590875
test('in the south that quarter is winter', () => {
  expect(
    months('2004-06-21', '2004-09-20', { hemisphere: 'south', herd: { housing: 'grazed' } }),
  ).toBeCloseTo(2.7590875, 6);
});

test('housed, half the swing; hemisphere or housing unknown, none', () => {
  expect(
    months('2004-06-21', '2004-09-20', { hemisphere: 'north', herd: { housing: 'housed' } }),
  ).toBeCloseTo((3.2189129 + 2.9897331) / 2, 6);
  expect(months('2004-06-21', '2004-09-20', { herd: { housing: 'grazed' } })).toBe(91 / 30.4375);
  expect(months('2004-06-21', '2004-09-20', { hemisphere: 'north' })).toBe(91 / 30.4375);
});

test('a later period of the herd does not change an interval that began before it', () => {
  const herd = [
    { from: '2004-01-01', housing: 'grazed' as const },
    { from: '2004-07-01', housing: 'housed' as const },
  ];
  expect(months('2004-06-21', '2004-09-20', { hemisphere: 'north', herd })).toBeCloseTo(3.2189129, 6);
  expect(months('2004-07-01', '2004-09-20', { hemisphere: 'north', herd })).toBeCloseTo(
    months('2004-07-01', '2004-09-20', { hemisphere: 'north', herd: { housing: 'housed' } }),
    12,
  );
});

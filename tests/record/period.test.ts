import { assert, integer, nat, property } from 'fast-check';
import { expect, test } from 'vitest';
import { addDays, calendarDayOf } from '../../src/record/calendar-day.js';
import { isInPeriod, monthOf, nameOfPeriod, readPeriod, twelveMonthsTo } from '../../src/record/period.js';

test.each([
  ['2026', '2026-01-01', '2026-12-31'],
  ['2026-03', '2026-03-01', '2026-03-31'],
  ['2028-02', '2028-02-01', '2028-02-29'],
  ['2026-12', '2026-12-01', '2026-12-31'],
  ['2026-03-09', '2026-03-09', '2026-03-09'],
  ['2026-01-01..2026-03-31', '2026-01-01', '2026-03-31'],
  ['2025..2026-03', '2025-01-01', '2026-03-31'],
  [' 2026-03 ', '2026-03-01', '2026-03-31'],
])('%s is %s to %s', (written, from, to) => {
  expect(readPeriod(written)).toEqual({ period: { from, to } });
});

test.each([
  '',
  '26',
  '2026-13',
  '2026-3',
  '2026-02-30',
  '2026/03',
  'March 2026',
  '2026-01-01..',
  '..2026',
  '2026..2026..2026',
  '2026-04..2026-03',
  '2026-Q1',
  '0026',
])('`%s` is refused, and what is expected is said', (written) => {
  const read = readPeriod(written);
  expect(read).toHaveProperty('wrong');
  expect('wrong' in read && read.wrong).toMatch(/expected a year|write the earlier day first/);
});

test('a period reads back from its name, and holds its own days only', () => {
  assert(
    property(integer({ min: -20_000, max: 60_000 }), nat(900), (start, length) => {
      const period = { from: calendarDayOf(start), to: calendarDayOf(start + length) };
      expect(readPeriod(nameOfPeriod(period).replace('--', '..'))).toEqual({ period });
      expect(isInPeriod(period.from, period) && isInPeriod(period.to, period)).toBe(true);
      expect(isInPeriod(addDays(period.from, -1), period)).toBe(false);
      expect(isInPeriod(addDays(period.to, 1), period)).toBe(false);
    }),
  );
  expect(nameOfPeriod({ from: '2026-02-01', to: '2026-02-28' })).toBe('2026-02');
  expect(nameOfPeriod({ from: '2026-02-01', to: '2026-02-27' })).toBe('2026-02-01--2026-02-27');
  expect(isInPeriod('1999-01-01', undefined)).toBe(true);
});

test('a month ends where the calendar ends it, leap years too', () => {
  expect(['2026-02-01', '2028-02-29', '2026-12-31', '2026-06-16'].map((day) => monthOf(day).to)).toEqual([
    '2026-02-28',
    '2028-02-29',
    '2026-12-31',
    '2026-06-30',
  ]);
  expect(monthOf('2026-12-31').from).toBe('2026-12-01');
});

test.each([
  ['2026-01-01', { from: '2025-01-02', to: '2026-01-01' }],
  ['2024-02-29', { from: '2023-03-01', to: '2024-02-29' }],
  ['2026-06-30', { from: '2025-07-01', to: '2026-06-30' }],
  ['2028-02-29', { from: '2027-03-01', to: '2028-02-29' }],
  ['2025-02-28', { from: '2024-02-29', to: '2025-02-28' }],
])('twelve months up to %s', (day, period) => {
  expect(twelveMonthsTo(day)).toEqual(period);
});

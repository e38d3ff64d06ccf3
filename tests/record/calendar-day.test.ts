import { expect, test } from 'vitest';
import {
  addDays,
  calendarDay,
  calendarDayOf,
  dayNumber,
  daysBetween,
} from '../../src/record/calendar-day.js';

test('a day that does not exist is refused', () => {
  expect(calendarDay.safeParse('2026-02-28').success).toBe(true);
  expect(calendarDay.safeParse('2024-02-29').success).toBe(true);
  for (const wrong of ['2026-02-29', '2026-02-30', '2026-13-01', '3/2/2026', '2026-2-3', ' 2026-02-03'])
    expect(calendarDay.safeParse(wrong).success, wrong).toBe(false);
});

test('day numbers count whole days from 1970-01-01', () => {
  expect(dayNumber('1970-01-01')).toBe(0);
  expect(dayNumber('2000-03-01')).toBe(11_017); // 30 years of 365 days, 7 leap days to 1999, 31 + 29 days of 2000
  expect(calendarDayOf(11_017)).toBe('2000-03-01');
  expect(() => dayNumber('soon')).toThrow(RangeError);
});

test('sums over the end of February', () => {
  expect(daysBetween('2026-02-28', '2026-03-01')).toBe(1);
  expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
  expect(daysBetween('2026-03-01', '2026-02-28')).toBe(-1);
  expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
});

import { expect, test } from 'vitest';
import { numbersInUse } from '../../src/book/numbers-table.js';

test.each(numbersInUse())('$key lies in its own range, and has a unit', ({ number }) => {
  expect(number.unit).not.toBe('');
  expect(number.value).toBeGreaterThanOrEqual(number.low ?? -Infinity);
  expect(number.value).toBeLessThanOrEqual(number.high ?? Infinity);
});

test('there are numbers to look at', () => {
  expect(numbersInUse().length).toBeGreaterThan(100);
});

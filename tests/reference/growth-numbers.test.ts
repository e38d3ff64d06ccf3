import { expect, test } from 'vitest';
import { numbersInUse } from '../../src/book/numbers-table.js';
import { sourcedNumbers } from '../../src/reference/sourced.js';

test.each(numbersInUse())('$key lies in its own range, and has a unit', ({ number }) => {
  expect(number.unit).not.toBe('');
  expect(number.value).toBeGreaterThanOrEqual(number.low ?? -Infinity);
  expect(number.value).toBeLessThanOrEqual(number.high ?? Infinity);
});

test('there are numbers to look at', () => {
  expect(numbersInUse().length).toBeGreaterThan(100);
});

test('a file of numbers holds no value without unit and address, and no text without address', () => {
  const address = { how: 'judgement', source: [], note: 'Taken so.' };
  const mark = { value: 2, unit: 'mm', address };
  const taken = (given: unknown) => sourcedNumbers.safeParse(given).success;
  expect(
    taken({ a: mark, b: { c: { ...mark, low: 1, high: 3 } }, names: { small: ['Jersey'], address } }),
  ).toBe(true);
  const { unit: _, ...unitless } = mark;
  const { address: __, ...addressless } = mark;
  for (const wrong of [
    2,
    'mm',
    unitless,
    addressless,
    { ...mark, value: '2', low: 1 },
    { ...mark, lower: 1 },
    { small: ['Jersey'] },
    { ...mark, address: { how: 'guessed', source: [] } },
  ])
    expect(taken({ a: mark, b: { c: wrong } }), JSON.stringify(wrong)).toBe(false);
});

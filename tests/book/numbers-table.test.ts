import { expect, test } from 'vitest';
import { numbersInUse, numbersSection } from '../../src/book/numbers-table.js';
import { wordsOf } from '../../src/reference/words.js';

test('every number of the sums has a name in words', () => {
  const words = wordsOf('en-GB');
  const numbers = numbersInUse();
  expect(numbers.length).toBeGreaterThan(80);
  expect(numbers.filter(({ key }) => !words.has(key)).map(({ key }) => key)).toEqual([]);
});

test('the last page prints each with its value', () => {
  const rows = numbersSection(wordsOf('en-GB')).table!.rows;
  expect(rows).toHaveLength(numbersInUse().length);
  const dorsal = rows.find(({ cells }) => cells[0]!.text === 'Growth, front line')!;
  expect(dorsal.cells[1]!.text).toBe('5.3 mm per month');
});

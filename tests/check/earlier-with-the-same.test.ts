import { expect, test } from 'vitest';
import { earlierWithTheSame } from '../../src/casefile/check/check-context.js';

test('each is given those before it that share a key, in order and once', () => {
  const words = ['ab', 'c', 'b', 'ab'];
  expect(earlierWithTheSame(words, (word) => [...word])).toEqual([[], [], ['ab'], ['ab', 'b']]);
});

test('without a key nothing is shared', () => {
  expect(earlierWithTheSame([1, 1], () => [])).toEqual([[], []]);
});

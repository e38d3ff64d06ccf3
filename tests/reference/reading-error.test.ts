import { expect, test } from 'vitest';
import { readingError, toolError } from '../../src/reference/reading-error.js';

test.each([
  ['calliper', 30, 1],
  ['ruler', 30, 2],
  ['tape', 30, 2],
  ['photo', 30, 3.5],
  ['eye', 30, 7],
  ['eye', 75, 9],
  [undefined, 30, 2],
] as const)('%s, %d mm: %d', (tool, mm, sigma) => {
  expect(toolError(tool, mm)).toBe(sigma);
});

test('another reader adds 1.5 mm in quadrature', () => {
  expect(readingError('ruler', 30, true)).toBe(2);
  expect(readingError('ruler', 30, false)).toBe(2.5);
});

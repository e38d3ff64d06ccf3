import { expect, test } from 'vitest';
import { readingError, toolError, wallError } from '../../src/reference/growth-numbers.js';

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

test('a wall read beside the gap may be off by 5 mm more, in quadrature; on the line by its own tool alone', () => {
  expect(wallError({ wall: 40, tool: 'ruler', 'wall-at': 'beside' })).toBeCloseTo(5.3852, 4);
  expect(wallError({ wall: 40, tool: 'ruler', 'wall-tool': 'calliper' })).toBe(1);
});

test('another reader adds 1.5 mm in quadrature', () => {
  expect(readingError('ruler', 30, true)).toBe(2);
  expect(readingError('ruler', 30, false)).toBe(2.5);
});

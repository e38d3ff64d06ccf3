import { expect, test } from 'vitest';
import { tokensOf } from '../../src/note/token.js';

test.each([
  ['top 21mm, seen', ['word top', 'number 21', 'word mm', 'mark ,', 'word seen']],
  ['a\u00a0b\u200bc\td', ['word a', 'word b', 'word c', 'word d']],
  ['“won’t \\"go\\"” x', ['quoted won’t "go"', 'word x']],
  ['"two\\nlines"', ['quoted two\nlines']],
  ['"not closed\nx', ['word "', 'word not', 'word closed', 'line \n', 'word x']],
  ["didn't. 18.5½", ["word didn't", 'stop .', 'number 18.5', 'fraction ½']],
  ['M4.1 3rd', ['word M', 'number 4.1', 'number 3', 'word rd']],
  [
    'TOP24 9O7 1/2" x',
    ['word TOP', 'number 24', 'number 907', 'number 1', 'mark /', 'number 2', 'inch "', 'word x'],
  ],
] as const)('%j', (text, expected) => {
  expect(tokensOf(text).map(({ kind, text: said }) => `${kind} ${said}`)).toEqual(expected);
});

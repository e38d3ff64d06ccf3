import { expect, test } from 'vitest';
import { numberSaid } from '../../src/note/number-said.js';
import { tokensOf } from '../../src/note/token.js';

/** What is left behind the number stands behind the bar. */
test.each([
  ['21', 21, ''],
  ['18.5 mm', 18.5, 'mm'],
  ['18 1/2', 18.5, ''],
  ['18½ x', 18.5, 'x'],
  ['1/2', 0.5, ''],
  ['2 3/4', 2.75, ''],
  ['twenty one wall', 21, 'wall'],
  ['twenty-one', 21, ''],
  ['twenty wall', 20, 'wall'],
  ['eighteen and a half', 18.5, ''],
  ['eighteen and wide', 18, 'and wide'],
  ['two and three quarters', 2.75, ''],
  ['two point seven five', 2.75, ''],
  ['nineteen point five wall', 19.5, 'wall'],
  ['two point seventy five', 2.75, ''],
  ['a hundred and five', 105, ''],
  ['one hundred', 100, ''],
  ['half', 0.5, ''],
  ['nil', 0, ''],
  ['3/4/26', 3, '/ 4 / 26'],
] as const)('%j is %d', (text, value, rest) => {
  const tokens = tokensOf(text);
  const said = numberSaid(tokens, 0);
  expect(said?.value).toBe(value);
  expect(tokens.slice(said?.next).map((token) => token.text).join(' ')).toBe(rest);
}); // prettier-ignore

test.each(['wall', 'a', 'and a half', '"21"'])('%j is no number', (text) => {
  expect(numberSaid(tokensOf(text), 0)).toBeUndefined();
});

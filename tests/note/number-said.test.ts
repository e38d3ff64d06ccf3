import { expect, test } from 'vitest';
import { digitsSaid, inMm, numberSaid } from '../../src/note/number-said.js';
import { tokensOf } from '../../src/note/token.js';

/** What is left behind the number is behind the bar. */
test.each([
  ['21', 21, ''],
  ['18.5 mm', 18.5, ''],
  ['2,9 cm', 2.9, ''],
  ['1-11/16 wall', 1.6875, 'wall'],
  ['3/4" across', 0.75, 'across'],
  ['three eighths by', 0.375, 'by'],
  ['one and nine sixteenths', 1.5625, ''],
  ['7/8 of an inch down', 0.875, 'down'],
  ['an inch', 1, ''],
  ['half an inch', 0.5, ''],
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

test.each([
  ['nine oh seven', '907'],
  ['one one eight', '118'],
  ['forty one twenty', '4120'],
  ['eleven hundred forty two', '1142'],
  ['thirty three oh five', '3305'],
] as const)('%j may be %s', (text, digits) => {
  expect(digitsSaid(tokensOf(text), 0).map((one) => one.digits)).toContain(digits);
});

test('a length in mm: centimetres, inches, and bare parts of an inch where they are nearer to what was read before', () => {
  const mm = (text: string, near?: number): number => inMm(numberSaid(tokensOf(text), 0)!, near);
  // What looks like centimetres is asked about by what looks at every record.
  expect([mm('2.9 cm'), mm('1 3/4 inch'), mm('1 3/4', 45), mm('18 1/2', 19), mm('4.3', 43), mm('21', 19)]).toEqual([29, 44.5, 44.5, 18.5, 4.3, 21]);
}); // prettier-ignore

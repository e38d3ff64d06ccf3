import { expect, it } from 'vitest';
import { hiddenSign, jsonText, signsShown } from '../../src/record/signs.js';

it.each([
  ['a terminal’s escape', 'a\u001b[31mb', 'U+001B', 'a[U+001B][31mb'],
  ['a nil', 'a\u0000b', 'U+0000', 'a[U+0000]b'],
  ['delete', 'a\u007fb', 'U+007F', 'a[U+007F]b'],
  ['a control of eight bits', 'a\u009bb', 'U+009B', 'a[U+009B]b'],
  ['a turn of direction', 'a\u202eb', 'U+202E', 'a[U+202E]b'],
  ['an isolate', 'a\u2066b', 'U+2066', 'a[U+2066]b'],
  ['a separator of lines', 'a\u2028b', 'U+2028', 'a[U+2028]b'],
  ['half a character', 'a\ud800b', 'U+D800', 'a[U+D800]b'],
])('%s is found and shown', (_, text, sign, shown) => {
  expect(hiddenSign(text)).toBe(sign);
  expect(signsShown(text)).toBe(shown);
});

it.each(['tab\tand\r\nline', 'Marra Ó Fenn', '👩‍🌾 quiet', 'می‌خواهم', 'שלום \u200f'])('%j is text', (text) => {
  expect(hiddenSign(text)).toBeUndefined();
  expect(signsShown(text)).toBe(text);
});

it('JSON holds each as an escape and means the same', () => {
  const value = { note: 'a\u001b\u007f\u202e\u2028b', of: [1, null] };
  const text = jsonText(value);
  expect(hiddenSign(text)).toBeUndefined();
  expect(JSON.parse(text)).toEqual(value);
});

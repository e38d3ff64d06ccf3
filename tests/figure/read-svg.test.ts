import { expect, test } from 'vitest';
import { escapeText, label, px } from '../../src/figure/svg-mark.js';
import { readSvg } from './read-svg.js';

test('the reader of these tests refuses what is not well formed', () => {
  for (const wrong of [
    '<a><b></a></b>',
    '<a>',
    '<a b=1/>',
    '<a b="1" b="2"/>',
    '<a>&</a>',
    '<a/><b/>',
    '<a><</a>',
    'x',
    '</a>',
  ])
    expect(() => readSvg(wrong), wrong).toThrow();
  expect(readSvg('<a b="1"><c/>x &lt; y</a>')).toMatchObject({ name: 'a', text: 'x < y' });
});

test('any text at all stays inside its element', () => {
  for (const text of [
    '<script>',
    '"&amp;"',
    'a\u0000b\u001f',
    '\ud800',
    'Ärmel 🐄',
    '\ufffe',
    ']]>',
    "o'clock",
  ]) {
    const read = readSvg(label('t', 0, 0, `x${text}`));
    expect(read.name).toBe('text');
    expect(read.children).toEqual([]);
  }
  expect(escapeText('a < b & "c"')).toBe('a &lt; b &amp; &quot;c&quot;');
  expect(escapeText('🐄')).toBe('🐄');
});

test('places are rounded to a tenth of a pixel, and a lost number is a slip of ours', () => {
  expect([px(12.3456), px(-0.04), px(7), px(0.05)]).toEqual(['12.3', '0', '7', '0.1']);
  expect(() => px(Number.NaN)).toThrow(RangeError);
});

import { expect, test } from 'vitest';
import { drawnMm, heightOf, highest, linesIn, roomOn, stacked } from '../../src/book/fit.js';
import { textWidth } from '../../src/figure/wrap-text.js';

const setting = { pt: 9, lineHeight: 1.3 };
const text = 'Grit packed up under the wall again; taken off until it held tight all round.';

test('the room of a side is its paper less the margins every book is printed with', () => {
  expect(roomOn('A4')).toEqual({ widthMm: 186, heightMm: 276 });
  const { widthMm, heightMm } = roomOn('Letter');
  expect([widthMm, heightMm].map((mm) => mm.toFixed(1))).toEqual(['191.9', '258.4']);
});

test('a text takes as many lines as its width asks for, never fewer in a narrower column or in bold', () => {
  const wide = (textWidth(text, 12) * 25.4) / 96;
  expect(linesIn(text, wide + 3, setting)).toBe(1);
  expect(linesIn(text, wide / 2 - 3, setting)).toBeGreaterThan(2);
  expect(linesIn('', 50, setting)).toBe(0);
  let before = Infinity;
  for (let mm = 10; mm < 150; mm += 5) {
    const lines = linesIn(text, mm, setting);
    expect(lines).toBeLessThanOrEqual(before);
    expect(linesIn(text, mm, { ...setting, weight: 'bold' })).toBeGreaterThanOrEqual(lines);
    before = lines;
  }
});

test('a word longer than its line is broken, and counts each line it needs', () => {
  const long = 'ungewöhnlichlangeswort'.repeat(6);
  const lines = Math.ceil(textWidth(long, 12) / ((40 / 25.4) * 96));
  expect(linesIn(long, 40, setting)).toBeGreaterThanOrEqual(lines);
  expect(linesIn(`so ${long}`, 40, setting)).toBeGreaterThan(lines);
});

test('a height is its lines times the size of type times the line height', () => {
  // 9 pt × 1.3 is 11.7 pt, 4.1275 mm.
  expect(heightOf('one line', 100, setting)).toBeCloseTo(4.1275, 4);
  expect(heightOf('', 100, setting)).toBe(0);
});

test('what has no height takes no gap', () => {
  expect(stacked([10, 0, 5], 3)).toBe(18);
  expect(stacked([0, 0], 3)).toBe(0);
  expect(highest([])).toBe(0);
  expect(drawnMm('<svg class="fig" width="96" height="96">')).toBeCloseTo(25.4, 9);
});

import { expect, test } from 'vitest';
import { lanes } from '../../src/figure/timeline-rows.js';
import { textWidth, cutText, wrapText } from '../../src/figure/wrap-text.js';
import { timeScale } from '../../src/figure/visit-timeline.js';
import { drawingId } from '../../src/figure/figure.js';
import { wordsOf } from '../../src/reference/words.js';

const words = wordsOf('en-GB');

test('a line of text is as wide as its characters', () => {
  // A figure of the face is 497 thousandths wide.
  expect(textWidth('000', 10)).toBeCloseTo(14.91, 2);
  expect(textWidth('牛', 10)).toBeCloseTo(10, 2);
  expect(textWidth('', 10)).toBe(0);
});

test('text breaks at spaces only, and a word too wide can be cut', () => {
  expect(wrapText('lower than growth', 60, 11)).toEqual(['lower than', 'growth']);
  expect(wrapText('unbreakable', 10, 11)).toEqual(['unbreakable']);
  const cut = cutText('a-very-long-name', 40, 11);
  expect(cut).toMatch(/^a-v.*…$/);
  expect(textWidth(cut, 11)).toBeLessThanOrEqual(40);
  expect(cutText('short', 40, 11)).toBe('short');
});

test('lanes part what would cover each other, and no more', () => {
  expect(lanes([{ from: 0, to: 10 }, { from: 5, to: 15 }, { from: 12, to: 20 }])).toEqual([0, 1, 0]); // prettier-ignore
  expect(lanes([{ from: 12, to: 20 }, { from: 0, to: 10 }])).toEqual([0, 0]); // prettier-ignore
  expect(lanes([])).toEqual([]);
});

test('days lie on the time line in proportion, months carry their first year and each January', () => {
  const scale = timeScale('2026-01-28', '2026-02-24', 0, 280, words);
  expect(scale.x('2026-01-28')).toBe(0);
  expect(scale.x('2026-02-11')).toBe(140);
  expect(scale.x('2025-01-01')).toBe(0);
  const names = (from: string, to: string) =>
    timeScale(from, to, 0, 600, words).ticks.map(({ text }) => text);
  expect(names('2025-10-20', '2026-03-02')).toEqual(['Nov 2025', 'Dec', 'Jan 2026', 'Feb', 'Mar']);
  expect(names('2020-01-01', '2030-01-01').every((name) => name.startsWith('Jan 20'))).toBe(true);
});

test('an id holds nothing that an attribute or a style sheet trips over', () => {
  expect(drawingId('2086-2', 'a')).toBe('f-2086-2-a');
  expect(drawingId('a"b(c)', 'ü')).toBe('f-a-b-c---');
});

import { expect, test } from 'vitest';
import { type ClosingInput, closingOnTime, type ClosingOnTime } from '../../src/figure/closing-on-time.js';
import { addDays } from '../../src/record/calendar-day.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { closing, timeline } from './made-up-figures.js';
import { all, readSvg, textBoxes } from './read-svg.js';

const words = wordsOf('en-GB');
const paper = { widthPx: 703, tallestPx: 190, of: 'paper' } as const;
const phone = { widthPx: 328, tallestPx: 160, of: 'phone' } as const;
const of = (strip: ClosingInput, more: Partial<ClosingOnTime> = {}): ClosingOnTime => ({
  strip,
  today: '2026-06-30',
  ...more,
});

test('an ulcer is as tall as it is wide, all looks to one scale', () => {
  const svg = readSvg(closingOnTime(of(closing), words, paper).svg);
  const tall = all(svg)
    .filter(({ attributes }) => attributes.get('class') === 'edge')
    .map(({ attributes }) => 2 * Number(attributes.get('ry')));
  // Widths of 16, 10.5, 4 and 5 mm at 5 px a mm; the one not used is dotted.
  for (const [at, mm] of [16, 10.5, 4, 5].entries())
    expect(Math.abs(tall[at]! - mm * 5)).toBeLessThanOrEqual(0.11);
  expect(tall).toHaveLength(4);
});

test('size, how it reads and when it should have closed are written', () => {
  const closes = { early: '2026-07-20', best: '2026-08-01', late: '2026-08-16' };
  const texts = textBoxes(readSvg(closingOnTime(of({ ...closing, closes }), words, paper).svg)).map(
    ({ text }) => text,
  );
  for (const text of [
    '22 × 16',
    '17 × 10.5',
    '9 × 4',
    '8 × 5',
    'covered',
    'came back',
    'should close 20 Jul – 16 Aug',
  ])
    expect(texts).toContain(text);
});

test('drawings of any size and number are sound, on paper and on a phone', () => {
  for (const room of [paper, phone])
    for (const largest of [0, 1, 30, 120])
      for (const count of [0, 1, 4, 14]) {
        const bars = Array.from({ length: count }, (_, at) => ({
          date: addDays('2026-01-06', 28 * at),
          ...(at % 4 === 3 ? {} : { widthMm: largest }),
          ...(at % 3 === 2 ? {} : { lengthMm: largest * 1.1 }),
          ...(at % 5 === 4 ? { reads: 'opening-up' as const } : {}),
        }));
        const figure = closingOnTime(
          of({ ...closing, bars }, { beneath: timeline, lift: '2026-07-14' }),
          words,
          room,
        );
        expect(complaints(figure, `${closing.id}-${room.of}`), `${count} of ${largest} mm`).toEqual([]);
        expect(figure.table.rows).toHaveLength(count + 1);
      }
});

test('same input, same bytes', () => {
  const draw = () => closingOnTime(of(structuredClone(closing)), words, paper);
  expect(draw()).toEqual(draw());
});

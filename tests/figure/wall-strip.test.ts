import { expect, test } from 'vitest';
import { wallStrip } from '../../src/figure/wall-strip.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { everyKindStrip, healedStrip, longStrip, ranUpStrip } from './made-up-figures.js';
import { all, readSvg, textBoxes, type Element } from './read-svg.js';

const words = wordsOf('en-GB');

/** Upright extents of the plain rectangles of one class: `M x y h w v h`. */
function heights(svg: Element, mark: string): number[] {
  return all(svg)
    .filter(({ attributes }) => attributes.get('class') === mark)
    .flatMap(({ attributes }) => /^M\S+ \S+h\S+v([\d.]+)h/.exec(attributes.get('d') ?? '')?.[1] ?? [])
    .map(Number);
}

test('bars are to scale: the wall above each line is as long as the top reads', () => {
  const svg = readSvg(wallStrip(ranUpStrip, words).svg);
  const pxPerMm = 2.6;
  // Each end is rounded to 0.1 px, so a height may be off by 0.1.
  const expected = [17, 22, 27, 14, 19, 27].map((mm) => mm * pxPerMm);
  const drawn = heights(svg, 'wall');
  expect(drawn).toHaveLength(expected.length);
  for (const [at, height] of drawn.entries())
    expect(Math.abs(height - expected[at]!)).toBeLessThanOrEqual(0.11);
  const later = heights(svg, 'dash');
  for (const [at, mm] of [35, 43, 51, 61].entries())
    expect(Math.abs(later[at]! - mm * pxPerMm)).toBeLessThanOrEqual(0.11);
});

test('the reading is written, run-ups with size and months, the expected with the word out', () => {
  const texts = textBoxes(readSvg(wallStrip(ranUpStrip, words).svg)).map(({ text }) => text);
  for (const text of [
    '17',
    '22',
    '27',
    '14',
    '19',
    'ran up',
    '18 mm',
    '35',
    '43',
    '51',
    'expected',
    'out',
    'coronet',
  ])
    expect(texts).toContain(text);
  expect(texts.filter((text) => text === '28 days')).toHaveLength(4);
});

test('nothing is cut off and no two texts meet, whatever the data: 1 to 14 readings, tops of 0 to 90', () => {
  for (const language of ['en-GB', 'en-US'] as const)
    for (const count of language === 'en-GB' ? [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14] : [6, 14])
      for (const top of [0, 2, 6.5, 12, 34.5, 90])
        for (const wall of [12, 60, 200]) {
          const strip = longStrip(count, top, wall);
          expect(complaints(wallStrip(strip, wordsOf(language)), strip.id)).toEqual([]);
          const { out: _, ...withoutDate } = strip;
          const undated = { ...withoutDate, expected: [], noForecast: 'starts-at-coronet' as const };
          expect(complaints(wallStrip(undated, wordsOf(language)), strip.id)).toEqual([]);
        }
});

test('the strips of every kind of reading are sound', () => {
  for (const strip of [ranUpStrip, everyKindStrip, healedStrip])
    expect(complaints(wallStrip(strip, words), strip.id)).toEqual([]);
  const none = { ...healedStrip, bars: [] };
  expect(complaints(wallStrip(none, words), none.id)).toEqual([]);
});

test('past the width of a sheet the first and the latest visits are drawn, and the table keeps them all', () => {
  const strip = longStrip(14, 30, 60);
  const { svg, table, notes } = wallStrip(strip, words);
  expect(Number(readSvg(svg).attributes.get('width'))).toBeLessThanOrEqual(54 + 11 * 72 + 10);
  // 11 columns less two expected and one out leave 8: the first, the break and the latest 6.
  expect(
    textBoxes(readSvg(svg))
      .map(({ text }) => text)
      .join(' '),
  ).toContain('7 more in table');
  expect(table.rows).toHaveLength(14 + 2);
  expect(notes.join(' ')).toContain('7 visits are left out of the drawing');
});

test('where the top was not found there is no line and no number, but a question', () => {
  const [higher] = everyKindStrip.bars;
  const figure = wallStrip(
    { ...everyKindStrip, bars: [higher!], held: [], noForecast: 'not-reached' },
    words,
  );
  const texts = textBoxes(readSvg(figure.svg)).map(({ text }) => text);
  expect(texts).toContain('?');
  expect(texts.join(' ')).toContain('no date: top not found');
  expect(figure.notes.join(' ')).toContain('goes on up under standing wall');
  expect(figure.table.rows[0]![2]).toBe('');
});

test('no forecast, no expected bars, and why is said', () => {
  const figure = wallStrip(everyKindStrip, words);
  expect(heights(readSvg(figure.svg), 'dash')).toEqual([]);
  expect(figure.notes.join(' ')).toContain(
    'No date: the last reading is doubtful. If she has run up: out between 1 December 2026 and 9 May 2027.',
  );
});

test('at the coronet only the range is printed, never a likeliest day', () => {
  const figure = wallStrip({ ...ranUpStrip, expected: [], ifSoundHornFollows: true }, words);
  expect(figure.svg + figure.description + figure.notes.join(' ')).not.toContain('17 Nov');
  expect(figure.notes.join(' ')).toContain(
    'If sound horn follows, out between 10 October 2026 and 5 January 2027',
  );
});

test('the strip speaks American English where it differs', () => {
  const figure = wallStrip(ranUpStrip, wordsOf('en-US'));
  const texts = textBoxes(readSvg(figure.svg)).map(({ text }) => text);
  expect(texts).toEqual(expect.arrayContaining(['coronary', 'band', 'Jan 6']));
  expect(figure.svg + figure.notes.join(' ') + figure.table.rows.flat().join(' ')).not.toMatch(
    /coronet|metre/,
  );
});

test('the notes explain only what occurs', () => {
  const notes = wallStrip(
    { ...ranUpStrip, bars: ranUpStrip.bars.slice(0, 1), expected: [] },
    words,
  ).notes.join(' ');
  for (const word of ['Arrow', 'Bracket', 'Squares', 'Question', 'Dashed', 'Saw', 'evenly'])
    expect(notes).not.toContain(word);
});

test('same input, same bytes; six visits stay under 6 kB', () => {
  const svg = wallStrip(ranUpStrip, words).svg;
  expect(wallStrip(structuredClone(ranUpStrip), words).svg).toBe(svg);
  expect(Buffer.byteLength(svg)).toBeLessThanOrEqual(6000);
});

test('a name from a file cannot leave its place', () => {
  const named = {
    ...healedStrip,
    bars: healedStrip.bars.map((bar) => ({ ...bar, joined: '"><script>' })),
    lesion: '<b>&',
  };
  expect(complaints(wallStrip(named, words), named.id)).toEqual([]);
});

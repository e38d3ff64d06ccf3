import { expect, test } from 'vitest';
import type { WallStripInput } from '../../src/figure/wall-strip-input.js';
import { scaleOf, wallOnTime, type WallOnTime } from '../../src/figure/wall-on-time.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { everyKindStrip, healedStrip, longStrip, ranUpStrip, timeline } from './made-up-figures.js';
import { all, readSvg, textBoxes } from './read-svg.js';

const words = wordsOf('en-GB');
const paper = { widthPx: 703, tallestPx: 190, of: 'paper' } as const;
const phone = { widthPx: 328, tallestPx: 160, of: 'phone' } as const;
const of = (strip: WallStripInput, more: Partial<WallOnTime> = {}): WallOnTime => ({
  strip,
  today: '2026-06-16',
  mmPerMonth: 5.5,
  ...more,
});

test('nothing is cut off and no two texts meet, whatever the data, on paper and on a phone', () => {
  for (const room of [paper, phone])
    for (const language of ['en-GB', 'en-US'] as const)
      for (const count of [1, 2, 3, 6, 9, 14])
        for (const top of [0, 2, 6.5, 34.5, 90])
          for (const wall of [12, 60, 200]) {
            const strip = longStrip(count, top, wall);
            const { out: _, ...withoutDate } = strip;
            const undated = { ...withoutDate, noForecast: 'starts-at-coronet' as const };
            for (const one of [strip, undated])
              expect(
                complaints(wallOnTime(of(one), wordsOf(language), room), `${one.id}-${room.of}`),
              ).toEqual([]);
          }
});

test('drawings of every kind of reading are sound, with what runs beneath', () => {
  for (const room of [paper, phone])
    for (const strip of [ranUpStrip, everyKindStrip, healedStrip, { ...healedStrip, bars: [] }])
      expect(
        complaints(
          wallOnTime(of(strip, { beneath: timeline, lift: '2026-07-07' }), words, room),
          `${strip.id}-${room.of}`,
        ),
      ).toEqual([]);
});

test('a millimetre of wall is a millimetre of paper where it fits, else the next of the stated scales', () => {
  // 190 px are 50.27 mm of paper.
  expect(scaleOf(40, 190)).toBe(1);
  expect(scaleOf(50.2, 190)).toBe(1);
  expect(scaleOf(60, 190)).toBe(0.8);
  expect(scaleOf(80, 190)).toBe(0.6);
  expect(scaleOf(100, 190)).toBe(0.5);
  const heights = all(
    readSvg(
      wallOnTime(
        of({
          ...ranUpStrip,
          wall: { ...ranUpStrip.wall, mm: 40 },
          bars: ranUpStrip.bars.map((bar) => ({ ...bar, wallMm: 40 })),
        }),
        words,
        paper,
      ).svg,
    ),
  )
    .filter(({ attributes }) => attributes.get('class') === 'wall')
    .map(({ attributes }) => Number(/v([\d.]+)h/.exec(attributes.get('d') ?? '')?.[1]));
  const mm = [17, 22, 27, 14, 19, 27].map((top) => (top * 96) / 25.4);
  for (const [at, height] of heights.entries()) expect(Math.abs(height - mm[at]!)).toBeLessThanOrEqual(0.11);
  expect(heights).toHaveLength(6);
});

test('days are to scale: as many days, as wide', () => {
  const svg = readSvg(wallOnTime(of(ranUpStrip), words, paper).svg);
  const left = all(svg)
    .filter(({ attributes }) => attributes.get('class') === 'wall')
    .map(({ attributes }) => Number(/^M([\d.]+)/.exec(attributes.get('d') ?? '')?.[1]));
  // 28, 28, 28, 28 and 35 days apart.
  const apart = left.slice(1).map((x, at) => x - left[at]!);
  for (const width of apart.slice(0, 4)) expect(Math.abs(width - apart[0]!)).toBeLessThanOrEqual(0.21);
  expect(apart[4]! / apart[0]!).toBeCloseTo(35 / 28, 1);
});

test('a run-up is written with its size, the date with its range, never a likeliest day at the coronet', () => {
  const texts = (more: Partial<WallStripInput>) =>
    textBoxes(readSvg(wallOnTime(of({ ...ranUpStrip, ...more }), words, paper).svg)).map(({ text }) => text);
  expect(texts({})).toContain('ran up 18 mm, 3 months lost');
  expect(texts({})).toContain('should be out 10 Oct – 5 Jan 2027 · likely 17 Nov');
  expect(texts({ ifSoundHornFollows: true }).join(' ')).toContain(
    'if sound horn follows: out 10 Oct – 5 Jan 2027',
  );
  expect(texts({ ifSoundHornFollows: true }).join(' ')).not.toContain('17 Nov');
  expect(texts({ noForecast: 'held' }).join(' ')).toContain('no date: not growing down');
});

test('what lies long before the first reading is left to the visits, and not drawn on a wrong day', () => {
  const beneath = {
    ...timeline,
    from: '2024-01-01',
    gait: [{ date: '2024-01-02', score: 3, block: 'off' as const }],
  };
  const lanes = (from: Partial<typeof beneath>) =>
    textBoxes(
      readSvg(wallOnTime(of(ranUpStrip, { beneath: { ...beneath, ...from } }), words, paper).svg),
    ).map(({ text }) => text);
  expect(lanes({})).not.toContain('score');
  expect(lanes({ gait: [{ date: '2025-12-20', score: 3, block: 'off' }], from: '2025-12-20' })).toContain(
    'score',
  );
});

test('each year is written once, at its first date, and in an outlook where it is not the one of today', () => {
  const texts = textBoxes(readSvg(wallOnTime(of(everyKindStrip), words, paper).svg)).map(({ text }) => text);
  expect(texts.filter((text) => text.endsWith('2025'))).toEqual(['20 Nov 2025']);
  expect(texts.filter((text) => text.endsWith('2026'))).toEqual(['15 Jan 2026']);
});

test('each mark that the notes explain is drawn: lowered, not reached, taken off', () => {
  const { svg, notes } = wallOnTime(of(everyKindStrip), words, paper);
  const paths = (mark: string) =>
    all(readSvg(svg)).filter(({ attributes }) => attributes.get('class') === mark);
  for (const said of ['Saw-toothed foot', 'Arrow with a question mark', 'Dotted outline'])
    expect(notes.join(' ')).toContain(said);
  expect(paths('thin').some(({ attributes }) => /l[\d.]+-4l/.test(attributes.get('d') ?? ''))).toBe(true);
  expect(paths('top').some(({ attributes }) => attributes.get('d')!.endsWith('m-4 5l4-5l4 5'))).toBe(true);
  expect(paths('gone').length).toBeGreaterThan(0);
});

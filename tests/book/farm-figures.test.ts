import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { composeFarmFigures } from '../../src/book/farm-figures.js';
import { wordsOf } from '../../src/words/words.js';
import { cow, herd, looks, practiceOf, visit } from '../herd/invented-herd.js';

const words = wordsOf('en-GB');
const today = '2026-06-01';
const other = herd('harrowmere', [cow('901', looks(['2026-01-01', 'open'], ['2026-02-01', 'healed']))]);
const farm = herd(
  'quernholt',
  [cow('12', [visit('2026-01-01', { gait: 2 }), ...looks(['2026-02-01', 'open'], ['2026-03-01', 'healed'])])],
  {
    herd: { cows: 100 },
    hemisphere: 'south',
    footbath: [{ product: 'bluestone', strength: 4 }],
    'gait-rounds': [{ date: '2026-02-01', scored: 263, counts: { 0: 182, 2: 81 } }],
  },
);
const practice = practiceOf(farm, other, herd('nettlecombe', []));
const section = (id: string) =>
  composeFarmFigures(words, practice, farm, today).find((one) => one.id === id)!;
const rowsOf = (id: string) => section(id).table!.rows.map(({ cells }) => cells.map(({ text }) => text));

test('cases are listed here, and only counted over all farms', () => {
  expect(rowsOf('case-times')).toEqual([
    [
      'white line disease (WL)',
      '1 lesion in 1 animal; 1 seen healed',
      '12: between day 0 and day 28',
      '2 lesions in 2 animals; 2 seen healed',
    ],
    [
      'Walking sound off the block',
      '1 run of trouble in 1 animal; 0 seen sound',
      '12: not yet on day 0',
      '1 run of trouble in 1 animal; 0 seen sound',
    ],
  ]);
});

test('rates have their cow-years, and seasons go by the hemisphere', () => {
  // 1 January to 1 June, both in: 152 days of 100 cows, 41.6 cow-years; 1 ÷ 0.41615 = 2.4.
  expect(section('lesion-rates').lead[0]).toBe(
    'From 1 January 2026 to 1 June 2026, 41.6 cow-years of known herd size. 1 of 1 were first seen in that time and are in the rates.',
  );
  const rows = rowsOf('lesion-rates');
  expect(rows[0]).toEqual(['All kinds', '1', '41.6', '2.4 (0.1 to 13.4)']);
  expect(rows.at(-4)![0]).toBe('Summer, December to February');
});

test('a bath that cannot be worked out says what is missing', () => {
  const [row] = section('footbath-sums').table!.rows;
  expect(row!.cells[0]).toEqual({
    text: 'bluestone',
    note: '52 weeks a year, 100 cows. To work this out, write the litres in a fill (length × width × depth in cm ÷ 1000), the cows per fill and the times a week.',
  });
  expect(row!.cells.slice(1).every(({ text }) => text === '–')).toBe(true);
});

test('all sections stand on the farm page, rounds with their range, and no other farm is named', () => {
  const page = composeBook(practice, farm, today).farm;
  expect(page.tables.map(({ id }) => id)).toEqual([
    'herd-periods',
    'gait-rounds',
    'footbath',
    'case-times',
    'came-back',
    'lesion-rates',
    'lame-days',
    'early-lifting',
    'footbath-sums',
  ]);
  const [round] = page.tables[1]!.table!.rows;
  expect(round!.cells[3]).toMatchObject({
    text: '81 of 263 (31\u00A0%)',
    note: 'chance leaves open 26 to 37 %',
  });
  expect(JSON.stringify(page)).not.toMatch(/harrowmere|901/i);
});

test('a farm with no animal and no herd still says what it can', () => {
  const empty = herd('quernholt', []);
  const told = composeFarmFigures(words, practiceOf(empty), empty, today);
  expect(told.map(({ id }) => id)).toEqual(['case-times', 'came-back', 'lame-days', 'early-lifting']);
  expect(told[1]!.lead).toEqual([
    'No lesion has been seen healed yet, so none can have come back.',
    'No digital dermatitis has been seen quiet or healed yet.',
  ]);
});

import { expect, test } from 'vitest';
import { type AnnexPage, composeAnnex } from '../../src/book/annex.js';
import { composeFarmFigures } from '../../src/book/farm-figures.js';
import { composeFootbathPage } from '../../src/book/footbath-page.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import { addDays } from '../../src/record/calendar-day.js';
import { wordsOf } from '../../src/reference/words.js';
import { cow, herd, looks, practiceOf, visit } from '../herd/invented-herd.js';
import { plain } from '../words/plain.js';

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
const figuresOf = (all: Practice, one: FarmRecord) =>
  composeFarmFigures(words, all.business, one, today, pooledOn(all, today));
const section = (id: string) => figuresOf(practice, farm).find((one) => one.id === id)!;
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
      'Not lame, off the block',
      '1 lameness episode in 1 animal; 0 seen not lame',
      '12: not yet on day 0',
      '1 lameness episode in 1 animal; 0 seen not lame',
    ],
    [
      'Sound, off the block',
      '1 lameness episode in 1 animal; 0 seen sound',
      '12: not yet on day 0',
      '1 lameness episode in 1 animal; 0 seen sound',
    ],
  ]);
});

test('rates have their cow-years, and seasons go by the hemisphere; of one animal the count is alone', () => {
  // 1 January to 1 June, both in: 152 days of 100 cows, 41.6 cow-years.
  expect(section('lesion-rates').lead[0]).toBe(
    'From 1 January 2026 to 1 June 2026, 41.6 cow-years of known herd size. 1 of 1 were first seen in that time and are in the rates.',
  );
  expect(rowsOf('lesion-rates')[0]).toEqual(['All kinds', '1', '41.6', '–']);
  const [chart] = section('lesion-rates').figures!;
  const first = (one: typeof chart) => one!.table.rows.map(({ cells }) => cells.map(({ text }) => text))[0]!;
  expect(first(chart)).toEqual([
    'Summer, December to February',
    'white line disease (WL): 1',
    '1',
    '16.2',
    '–',
  ]);
  expect(chart!.svg).toContain('Lesions first seen<');
  // A second animal in the same season: 2 ÷ 0.41615 = 4.8, exact bounds 0.2422 to 7.2247, each ÷ 0.41615; of the season ÷ 0.16153.
  const second = { ...farm, cases: [...farm.cases, ...herd('q', [cow('13', looks(['2026-02-02', 'open']))]).cases] }; // prettier-ignore
  const rates = figuresOf(practiceOf(second), second).find(({ id }) => id === 'lesion-rates')!;
  expect(rates.table!.rows[0]!.cells[3]!.text).toBe('4.8 (0.6 to 17.4)');
  expect(rates.table!.columns[3]!.head).toBe('Per 100 cow-years (95\u00a0% confidence interval)');
  expect(first(rates.figures![0]).slice(2)).toEqual(['2', '16.2', '12.4 (1.5 to 44.7)']);
  expect(rates.figures![0]!.svg).toContain('2 in 16.2 cow-years');
});

test('a curve has its own numbers and bounds beneath it, and its kind no more among the others', () => {
  const days = ['2026-01-29', '2026-02-12', '2026-02-26', '2026-03-12', '2026-03-26', '2026-04-09'];
  const healedIn = (times: number) => {
    const many = herd(
      'quernholt',
      Array.from({ length: times }, () => days)
        .flat()
        .map((day, at) =>
          cow(`${at}`, looks(['2026-01-01', 'open'], [addDays(day, -14), 'open'], [day, 'healed'])),
        ),
    );
    return figuresOf(practiceOf(many), many).find(({ id }) => id === 'case-times')!;
  };
  const times = healedIn(4);
  expect(times.table!.rows.map(({ cells }) => cells[0]!.text)).toEqual([
    'Not lame, off the block',
    'Sound, off the block',
  ]);
  const [chart] = times.figures!;
  const cells = chart!.table.rows[0]!.cells.map(({ text, lines = [] }) => [text, ...lines].join(' | '));
  expect(cells.slice(0, 2)).toEqual(['white line disease (WL)', '24 lesions in 24 animals; 24 seen healed']);
  const told = [...chart!.svg.matchAll(/(\d+)\s?% by day (\d+) \((\d+) to (\d+)\s?%\)/g)];
  expect(told.length).toBeGreaterThan(1);
  for (const [, share, day, low, high] of told)
    expect(cells[2]).toContain(
      `by day ${day}: ${share}\u00a0% (95\u00a0% confidence interval ${low} to ${high}\u00a0%), estimated from 24`,
    );
  // Of six the bounds of every share that has come span more than half: no curve, and each is listed.
  const few = healedIn(1);
  expect(few.figures).toEqual([]);
  const [wall] = few.table!.rows;
  const said = [wall!.cells[2]!.text, ...(wall!.cells[2]!.lines ?? [])];
  expect(said.filter((line) => /^\d: between day \d+ and day \d+$/.test(line))).toHaveLength(6);
  expect(said.join()).not.toMatch(/ [1-9]\d*\s% \(/);
});

test('days lame and visits of few are listed one by one, without a median', () => {
  const { lead, table } = section('lame-days');
  expect(lead.join(' ')).toContain(
    '1 lameness episode still open. Visits with feet lifted: 3. Blocks fitted: 0.',
  );
  expect(table!.rows.map(({ cells }) => cells.map(({ text }) => text))).toContainEqual(['lame, no block on', '28 of 151', '28']); // prettier-ignore
  expect(JSON.stringify(table)).not.toMatch(/median|%/);
});

const annexOf = (all: Practice, one: FarmRecord) => composeAnnex(all, one, today, { read: () => undefined });

/** The parts of the annex that are no animal's, in the order of the contents. */
function pagesIn({ contents }: AnnexPage): string[] {
  return contents.lines
    .map(({ href }) => href)
    .filter((href) => ['#farm', '#footbath', '#last'].includes(href));
}

test('the footbath has a page of its own with copper drawn, where there is one', () => {
  const bath = { product: 'bluestone', form: 'pentahydrate', strength: 4, litres: 200, 'cows-per-fill': 100, 'times-a-week': 2 } as const; // prettier-ignore
  const bathing = herd('quernholt', [], { herd: { cows: 100 }, footbath: [bath], 'slurry-hectares': 100 });
  const page = annexOf(practiceOf(bathing), bathing);
  expect(pagesIn(page)).toEqual(['#farm', '#footbath', '#last']);
  const [recorded, sums] = page.footbath!.sections;
  expect(recorded!.table!.rows[0]!.cells[5]).toEqual({ text: '200' });
  const [chart] = sums!.figures!;
  // 2 fills a week of 8 kg, 52 weeks: 832 kg, 25.45 % copper, over 100 ha: 2.1 kg. 10 ÷ (2.117 × 0.385) = 12.3 years; less 0.6 taken off, 17.1.
  expect(chart!.table.rows[0]!.cells.slice(-2).map(({ text }) => text)).toEqual(['2.1 kg/ha', '12 to 17']);
  expect(chart!.svg).toContain('2.1 kg/ha; soil up 10 mg/kg in 12 to 17 years');
  expect(page.farm.tables.some(({ id }) => id === 'footbath')).toBe(false);
});

test('without land there is no copper to draw, without a bath no page', () => {
  expect(annexOf(practice, farm).footbath!.sections[1]!.figures).toBeUndefined();
  const dry = annexOf(practice, other);
  expect(dry.footbath).toBeUndefined();
  expect(dry.farm.tables.at(-1)).toMatchObject({ id: 'footbath', lead: ['No footbath is recorded.'] });
  expect(pagesIn(dry)).toEqual(['#farm', '#last']);
});

test('a bath that cannot be worked out says what is missing', () => {
  const sums = plain(composeFootbathPage(words, farm.farm, today))!.sections.find(
    ({ id }) => id === 'footbath-sums',
  )!;
  const [row] = sums.table!.rows;
  expect(row!.cells[0]).toEqual({
    text: 'bluestone',
    note: '52 weeks a year, 100 cows. To work this out, record the litres in a fill (length × width × depth in cm ÷ 1000), the cows per fill and the times a week.',
  });
  expect(row!.cells.slice(1).every(({ text }) => text === '–')).toBe(true);
});

test('all sections are on the farm page, rounds with their bounds, and no other farm is named', () => {
  const page = annexOf(practice, farm).farm;
  expect(page.tables.map(({ id }) => id)).toEqual([
    'herd-periods',
    'gait-rounds',
    'case-times',
    'came-back',
    'lesion-rates',
    'lame-days',
    'early-lifting',
  ]);
  const [round] = page.tables[1]!.figures![0]!.table.rows;
  expect(round!.cells[3]).toMatchObject({
    text: '81 of 263 (31\u00A0%)',
    note: '95\u00a0% confidence interval 26 to 37\u00a0%',
  });
  expect(JSON.stringify(page)).not.toMatch(/harrowmere|901/i);
});

test('a farm with no animal and no herd still says what it can', () => {
  const empty = herd('quernholt', []);
  const told = figuresOf(practiceOf(empty), empty);
  expect(told.map(({ id }) => id)).toEqual(['case-times', 'came-back', 'lame-days', 'early-lifting']);
  expect(told[1]!.lead).toEqual([
    'No lesion has been seen healed yet, so none can have come back.',
    'No digital dermatitis has been found not active or healed yet.',
  ]);
});

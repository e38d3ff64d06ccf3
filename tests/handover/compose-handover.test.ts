import { expect, test } from 'vitest';
import { renderHandover } from '../../src/handover/render-handover.js';
import { addDays } from '../../src/record/calendar-day.js';
import { cow, visit } from '../herd/invented-herd.js';
import { farmOf, handoverOf, longestBusiness, longestFarm, longestRecord, today } from './a-handover.js';

const top = (mm: number) => ({ state: 'open', top: mm, wall: 42, tool: 'ruler' }) as const;
const block = { foot: 'LH', claw: 'inner' } as const;

test('of open lesions those a notice stands for come first, so that a long record never leaves them out', () => {
  const ulcer = (width: number) => ({ state: 'open', width, length: 12, tool: 'ruler' }) as const;
  const bare = (width: number) => ({ ...ulcer(width), signs: ['exposed corium' as const] });
  const two = cow(
    '7',
    [
      visit('2026-05-12', { gait: 1, found: { a: ulcer(9), b: bare(12) } }),
      visit('2026-06-09', { gait: 1, found: { a: ulcer(9), b: bare(6) } }),
    ],
    {
      lesions: {
        a: { code: 'SU', foot: 'LH', claw: 'outer' },
        b: { code: 'SU', foot: 'RF', claw: 'inner' },
      },
    },
  );
  const { lesions, why } = handoverOf(farmOf(two));
  expect(why.items[0]!.text).toContain('right front');
  expect(lesions.items.map(({ lead }) => lead!.slice(0, 2))).toEqual(['b:', 'a:']);
});

/** Measured at 20 mm, then 24, then run up to 12; lame off the block at two scorings 28 days apart. */
const ranUp = cow(
  '2086',
  [
    visit('2026-03-03', { gait: 2, found: { a: { ...top(20), width: 9, signs: ['undermined'] } } }),
    visit('2026-03-31', {
      gait: 2,
      found: { a: top(24) },
      blocks: [{ ...block, event: 'fitted' }],
      products: [
        { product: 'injection', class: 'medicine', batch: 'K1', 'milk-days': 4, 'meat-days': 10, 'given-by': 'P. Wexmarrow' },
      ], // prettier-ignore
    }),
    visit('2026-04-28', {
      gait: 1,
      found: { a: { ...top(12), signs: ['pus'] } },
      blocks: [{ ...block, event: 'removed', 'carrying-claw': 'bruised' }],
      vet: { asked: '2026-04-28', why: 'pus, and it ran up' },
    }),
    visit('2026-05-12', {
      kind: 'report',
      by: 'Nan',
      'vet-answer': { to: '2026-04-28', by: 'P. Wexmarrow', reply: 'drain it with me' },
    }),
    visit('2026-06-09', {
      gait: 2,
      products: [{ product: 'pain relief', class: 'medicine', on: '2026-06-12', until: '2026-06-14', 'milk-days': 5, 'meat-days': 28 }], // prettier-ignore
    }),
  ],
  {
    tag: 'UK 000123 402086',
    handling: 'kicks left',
    calvings: ['2024-10-19', '2025-11-04'],
    episodes: [{ 'lame-since': '2026-02-24', 'told-by': 'milker' }],
  },
);
const page = handoverOf(farmOf(ranUp), { ask: 'Will you look at it on the 23rd?' });
const column = (head: string) => page.history!.table.columns.findIndex((one) => one.head.startsWith(head));
const rowOf = (day: string) =>
  page.history!.table.rows.find(({ cells }) => cells[0]!.text.includes(day))!.cells;

test('why now: every notice in force, with its day, as worked out from the record', () => {
  expect(page.calls).toBe(true);
  expect(page.why.heading).toBe('Why now: worked out from the record');
  const said = page.why.items.map(({ lead, text }) => `${lead} ${text}`);
  expect(said).toContain(
    'For the vet at this visit, since 28 April 2026: A gap that ran up. On 28 April 2026, with pus or swelling: white line disease (WL), left hind, outer claw.',
  );
});

test('what is asked: now, then in the record with its answer', () => {
  expect(page.asks.items).toEqual([
    { lead: 'Now, 16 June 2026:', text: 'Will you look at it on the 23rd?' },
    {
      lead: '28 April 2026, recorded by Orla Venn:',
      text: '“pus, and it ran up”. Answer of P. Wexmarrow, recorded 12 May 2026: “drain it with me”',
    },
  ]);
});

test('the lesion visit by visit: lengths, the run-up by name, signs', () => {
  const a = column('a:');
  expect(rowOf('3 March')[a]!.text).toBe('open, top 20 of 42, 9 wide, undermined horn');
  expect(rowOf('31 March')[a]!.text).toBe('open, top 24 of 42');
  const up = rowOf('28 April')[a]!;
  expect(up.text).toMatch(/^ran up \d+ mm$/);
  expect(up).toMatchObject({ strong: true, note: 'open, top 12 of 42, pus' });
});

test('her walk off the block and on it are never in one column', () => {
  const [off, on] = [column('Off block'), column('On block')];
  expect([rowOf('3 March')[off]!.text, rowOf('3 March')[on]!.text]).toEqual(['2, lame', '–']);
  // With the block on.
  expect([rowOf('28 April')[off]!.text, rowOf('28 April')[on]!.text]).toEqual(['–', '1']);
  const fact = (label: string) =>
    [...page.state.walks, ...page.state.facts].find((one) => one.label === label)!.value;
  expect(fact('Score off the block')).toBe('2 (Tue 3 March), 2 (Tue 31 March), 2 (Tue 9 June)');
  expect(fact('Score on the block')).toBe('1 (Tue 28 April)');
  // On from 31 March to 28 April: 28 days.
  expect(fact('Block')).toBe(
    'none on record; left hind: 28 days in all; claw under it bruised (Tue 28 April)',
  );
  // 4 November to 16 June: 26 + 31 + 31 + 28 + 31 + 30 + 31 + 16 = 224 days.
  expect(fact('Calving')).toBe('calved 2 times, last 4 November 2025; 224 days ago');
});

test('what she was given, what still counts first, each period as written; one milk day and one meat day of all: 14 June and 5 days, 28 days', () => {
  const rows = page.treatments.table!.rows.map(({ cells }) => cells.map(({ text }) => text));
  expect(rows).toEqual([
    ['Fri 12 June to Sun 14 June', 'pain relief', 'Orla Venn', '5 days', '28 days'],
    ['Tue 31 March', 'injection', 'P. Wexmarrow', '4 days', '10 days'],
  ]);
  const fact = (label: string) => page.state.facts.find((one) => one.label === label)!.value;
  expect(fact('Milk')).toBe('to Fri 19 June; clear Sat 20 June');
  expect(fact('Meat')).toBe('to Sun 12 July; clear Mon 13 July');
});

test('a medicine nobody wrote a withdrawal for is never shown as clear', () => {
  const given = cow('1', [visit('2026-06-09', { products: [{ product: 'x', class: 'medicine' }] })]);
  const { treatments, state } = handoverOf(farmOf(given));
  expect(treatments.table!.rows[0]!.cells.slice(3).map(({ text }) => text)).toEqual([
    'not recorded: treat as under withdrawal and ask the vet',
    'not recorded: treat as under withdrawal and ask the vet',
  ]);
  expect(state.facts.find(({ label }) => label === 'Milk')!.value).toBe(
    'not known: treat as under withdrawal, ask the vet; x, last given 9 June 2026: no milk period.',
  );
});

test('a mark filed on the sound claw shows how far her horn has come down', () => {
  const marked = cow(
    '1',
    [
      visit('2026-03-03', { found: { m1: { distance: 12 } } }),
      visit('2026-05-26', { found: { m1: { distance: 33 } } }),
    ],
    { marks: { m1: { foot: 'LH', claw: 'inner', line: 'dorsal' } } },
  );
  expect(handoverOf(farmOf(marked)).lesions.items.at(-1)!.text).toBe(
    'm1, a mark filed on the wall, left hind, inner claw: 12 mm below the coronet on Tue 3 March, 33 mm on Tue 26 May.',
  );
});

test('an earlier lameness episode is reported in a line, and what is still withheld of it is not lost', () => {
  const two = cow(
    '1',
    [
      visit('2026-05-26', {
        products: [{ product: 'x', class: 'medicine', 'milk-days': 0, 'meat-days': 40 }],
      }),
      visit('2026-06-09', { gait: 2, found: { a: top(20) } }),
    ],
    { episodes: [{ ended: '2026-06-01', result: 'sound' }, { 'lame-since': '2026-06-05' }] },
  );
  const said = handoverOf(farmOf(two));
  expect(said.lesions.items.at(-1)!.text).toBe('One earlier lameness episode, ended 1 June 2026.');
  expect(said.treatments.table!.rows).toHaveLength(1);
  expect(said.history!.table.rows).toHaveLength(1);
});

test('nothing to say is said: no visit, no notice, no question, no vet', () => {
  const said = handoverOf(farmOf(cow('1', [], { lesions: {} })));
  expect(said.calls).toBe(false);
  expect(said.why.items[0]!.text).toMatch(/^Nothing in her record calls for the vet/);
  expect(said.asks.items[0]!.text).toMatch(/^No question is recorded/);
  expect(said.parties[0]!.value).toBe('no vet is recorded for this farm');
  expect(said.history).toBeUndefined();
  expect(renderHandover(said)).toContain('No product is recorded');
});

test('her wall is on the page where a side has room; older visits yield to it, the first and the latest stay', () => {
  const read = [16, 20, 25, 29, 33].map((mm, at) =>
    visit(addDays('2026-01-06', at * 28), { gait: 1, found: { a: top(mm) } }),
  );
  const short = handoverOf(farmOf(cow('7', read.slice(0, 2))));
  expect(short.figure?.svg).toMatch(/^<svg class="fig"/);
  expect(short.figure?.phone).toContain('width="328"');
  const told = handoverOf(farmOf(cow('7', read)));
  expect(told.figure).toBeDefined();
  const days = told.history!.table.rows.map(({ cells }) => cells[0]!.text);
  expect(days[0]).toContain('6 January');
  expect(days.at(-1)).toContain('28 April');
  // Much to say to the vet: the words stay, the drawing yields.
  const long = handoverOf(farmOf(longestRecord(), longestFarm), { business: longestBusiness });
  expect(long.figure).toBeUndefined();
  expect(handoverOf(farmOf(cow('1', [], { lesions: {} }))).figure).toBeUndefined();
});

test('the head is hers: number, lesion with its place, standing; no line ends between number and unit', () => {
  expect([page.heading, page.what]).toEqual(['2086', 'White line disease (WL), left hind, outer claw']);
  expect(renderHandover(page)).toMatch(/\d\u00a0mm/);
  expect(renderHandover(page).replace(/<style>.*?<\/style>|<svg.*?<\/svg>/gs, '')).not.toMatch(/\d mm\b/);
});

test('a long record is shortened by the levels: the first visit, run-ups and the latest stay, and what is left out is counted', () => {
  const visits = Array.from(
    { length: 30 },
    (_, at) =>
    visit(addDays('2023-08-01', at * 35), { gait: 2, found: { a: { ...top(16 + (at % 3)), 'ran-up': at === 20 } } }), // prettier-ignore
  );
  const said = handoverOf(farmOf(cow('1', visits)));
  const days = said.history!.table.rows.map(({ cells }) => cells[0]!.text);
  expect(days.length).toBeLessThanOrEqual(8);
  expect(days[0]).toContain('1 August 2023');
  expect(days.at(-1)).toContain('12 May');
  expect(said.leftOut).toContain(`${30 - days.length} visits`);
});

test('the longest record gives a page of the same kind, the same bytes twice', () => {
  const longest = () =>
    renderHandover(handoverOf(farmOf(longestRecord(), longestFarm), { business: longestBusiness }));
  const html = longest();
  expect(longest()).toBe(html);
  expect(html).toContain('Left out for room');
  expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
});

test('it holds no diagnosis, no verdict and no money, whatever is priced', () => {
  const priced = { prices: { currency: 'GBP', visit: 45, block: 14.5, wrap: 4, 'milk-litre': 0.38 } };
  const html = renderHandover(handoverOf(farmOf(ranUp, { 'milk-litres': 29 }), { business: priced }));
  expect(html.replace(/<style>.*?<\/style>/s, '')).not.toMatch(/GBP|45\.00|\bcosts?\b|\bprices?\b/i);
  expect(html).toContain('never a diagnosis');
  expect(page.paper).toBe('A4');
  expect(page.foot).toContain(today.slice(0, 4));
});

import { expect, test } from 'vitest';
import { composeAnnex } from '../../src/book/annex.js';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import type { Animal } from '../../src/record/animal.js';
import type { Business } from '../../src/record/business.js';
import type { Practice } from '../../src/record/practice.js';
import { cow, herd, visit } from '../herd/invented-herd.js';
import { milking, priced } from '../money/worked.js';

const today = '2026-06-16';
const top = (mm: number) => ({ state: 'open', top: mm, wall: 42, tool: 'ruler' }) as const;
const visits = [
  visit('2026-05-05', {
    gait: 2,
    found: { a: top(20) },
    blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }],
    products: [{ product: 'x', class: 'medicine', 'milk-days': 3, 'meat-days': 60, cost: 9.8 }],
  }),
  visit('2026-06-02', { gait: 1, found: { a: top(26) }, recheck: '2026-06-30' }),
];

function bookOf(animal: Animal, business: Business = priced) {
  const farm = herd('quernholt', [animal], milking);
  const practice: Practice = { business, narrative: '', farms: [farm] };
  const farmPage = composeAnnex(practice, farm, today, { read: () => undefined }).farm;
  return { ...composeBook(practice, farm, today), farmPage };
}

const lame = { calvings: ['2025-11-04'], episodes: [{ 'lame-since': '2026-05-01' }] };

test('the card of one animal: her facts, and her costs added up by hand', () => {
  const card = bookOf(cow('1', visits, lame)).cows[0]!.back.money!;
  expect(card.facts.map(({ label, value }) => `${label}: ${value}`)).toEqual([
    // 1 May to 16 June: 30 + 16
    'This lameness episode: lame since 1 May 2026: 46 days',
    expect.stringMatching(/^Today: Growing down, 6 mm since 5 May 2026; /),
    'Calving: calved once, 4 November 2025',
    'Milk: no withdrawal on record',
    // 5 May and 60 days
    'Meat: to Sat 4 July; clear Sun 5 July',
  ]);
  expect(card.table.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
    ['Visits', '2', '45.00', '90.00'],
    ['Blocks', '1', '14.50', '14.50'],
    ['Products', '1', 'own', '9.80'],
    // 6, 7 and 8 May: 3 × 29 × 0.38 = 33.06
    ['Milk withdrawn', '3 days', '0.38', '33.06'],
    ['Total so far', '', '', '147.36'],
  ]);
  expect(card.notes[0]).toMatch(
    /^To finish at the present pace, a visit every 28 days \(as the next is planned\)/,
  );
  expect(card.notes[0]).toContain('80 % range');
  expect(card.lead).toContain('gives no advice');
});

test('of a closed case the card says when it ended and nothing of what is to come', () => {
  const over = { episodes: [{ 'lame-since': '2026-05-01', ended: '2026-06-10', result: 'sold' as const }] };
  const card = bookOf(cow('1', visits, { ...lame, ...over })).cows[0]!.back.money!;
  expect(card.facts[0]!.value).toBe('lame since 1 May 2026: 40 days; ended 10 June 2026');
  expect(card.notes).toEqual([
    'Each line is rounded to two decimals, half up; the total adds the lines. Milk counts each day once, from the day after the first dose.',
  ]);
});

test('the annex adds up a row a year; without prices neither card nor section is there', async () => {
  const priceless = bookOf(cow('1', visits, lame), {});
  expect(priceless.cows[0]!.back.money).toBeUndefined();
  expect(priceless.farmPage.tables.map(({ id }) => id)).not.toContain('money-years');
  const book = bookOf(cow('1', [visit('2025-12-30'), ...visits], lame));
  const years = book.farmPage.tables.find(({ id }) => id === 'money-years')!;
  expect(years.table!.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
    ['2025', '45.00', '–', '–', '–', '45.00'],
    ['2026, to 16 June 2026', '90.00', '14.50', '9.80', '33.06', '147.36'],
  ]);
  const html = await renderBook(book);
  const [card] = /<section class="money"[^]*?<\/section>/.exec(html)!;
  expect(card.replaceAll(/<[^>]+>/g, ' ')).not.toMatch(/\b(?:cull|keep|worth|recommend)/i);
});

test('an animal without a visit has no card, and one with nothing priced says what is not in the sum', () => {
  expect(bookOf(cow('1', [])).cows[0]!.back.money).toBeUndefined();
  const card = bookOf(cow('1', visits, lame), { prices: { currency: 'GBP', wrap: 4 } }).cows[0]!.back.money!;
  expect(card.table.rows.at(-1)!.cells.at(-1)!.text).toBe('9.80');
  expect(card.notes[1]).toContain(
    'Not in the total: 2 visits (no price is given); 1 block (no price is given); 3 days of milk (no price is given).',
  );
});

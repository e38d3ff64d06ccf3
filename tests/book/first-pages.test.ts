import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { caseOf, farmWith, fullFarm, fullPractice } from './full-practice.js';

const today = '2026-03-10';
const gap = { a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' } };

function seen(animal: string, more: object = {}, visit: object = {}) {
  return {
    casefile: 1,
    animal,
    lesions: gap,
    visits: [
      {
        date: '2026-02-10',
        by: 'Orla Venn',
        kind: 'first',
        found: { a: { state: 'open', top: 17, wall: 43, tool: 'ruler', 'top-found': 'seen' } },
        ...visit,
      },
    ],
    ...more,
  };
}

test('what to do next is one table sorted by day, with overdue said in words and a link to the animal', () => {
  const farm = farmWith([
    caseOf('12', seen('12', {}, { recheck: '2026-03-24' })),
    caseOf(
      '34',
      seen('34', {}, { recheck: '2026-02-24', 'ask-farm': [{ what: 'straw pen', by: '2026-04-01' }] }),
    ),
  ]);
  const { next } = composeBook(fullPractice, farm, today);
  const rows = next.table!.rows.map(({ cells }) => cells);
  const days = rows.map((cells) => cells[0]!.text);
  const order = ['24 February 2026', '24 March 2026', '1 April 2026'];
  expect(days.filter((day) => order.includes(day))).toEqual(order);
  const overdue = rows.find((cells) => cells[0]!.text === '24 February 2026')!;
  expect(overdue[0]!.note).toBe('overdue');
  expect(overdue[1]).toEqual({ text: '34', href: '#animal-34' });
  const later = rows.find((cells) => cells[0]!.text === '1 April 2026')!;
  expect(later[2]!.items).toMatchObject([{ lead: 'Farm', text: 'Keep her on straw' }]);
});

test('what one animal needs on one day is one row, and what is overdue stands before all else', () => {
  const farm = farmWith([
    caseOf(
      '12',
      seen(
        '12',
        {},
        {
          recheck: '2026-03-24',
          'ask-farm': [
            { what: 'straw pen', by: '2026-03-24' },
            { what: 'score her walk', by: '2026-03-09' },
          ],
        },
      ),
    ),
    caseOf('34', seen('34', {}, { recheck: '2026-03-10' })),
  ]);
  const rows = composeBook(fullPractice, farm, today).next.table!.rows.map(({ cells }) => cells);
  const overdue = rows.map(([day]) => day!.note === 'overdue');
  expect(overdue).toEqual(overdue.toSorted((a, b) => Number(b) - Number(a)));
  expect(overdue[0]).toBe(true);
  const hers = rows.filter(([day, animal]) => day!.text === '24 March 2026' && animal!.text === '12');
  expect(hers).toHaveLength(1);
  expect(hers[0]![2]!.items!.map(({ lead }) => lead)).toEqual(expect.arrayContaining(['Trimmer', 'Farm']));
});

test('withheld animals show the last withheld and the first clear day, and are not said again above', () => {
  const products = [
    { product: 'spray', class: 'medicine', 'milk-days': 4, 'meat-days': 0, on: '2026-03-08' },
  ];
  const book = composeBook(
    fullPractice,
    farmWith([caseOf('12', seen('12', {}, { date: '2026-03-08', products }))]),
    today,
  );
  expect(book.withheld.table!.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
    ['12', 'milk', '12 March 2026', '13 March 2026'],
  ]);
  expect(JSON.stringify(book.next)).not.toContain('withheld');
});

test('the vet’s list has one row an animal, most urgent first', () => {
  const signs = { found: { a: { state: 'open', top: 17, signs: ['bone'] } } };
  const book = composeBook(
    fullPractice,
    farmWith([
      caseOf('12', seen('12', {}, { found: { a: { state: 'open', top: 0 } } })),
      caseOf('34', seen('34', {}, signs)),
    ]),
    today,
  );
  const rows = book.vetList.table!.rows.map(({ cells }) => cells);
  expect(rows.map((cells) => cells[0]!.text)).toEqual(['34', '12']);
  expect(rows[0]![1]).toEqual({ text: 'the same day', strong: true });
  expect(book.animals.map(({ number }) => number)).toEqual(['34', '12']);
});

test('closed cases come after the open ones, folded, and are left out of a short book', async () => {
  const closed = seen('12', { episodes: [{ ended: '2026-03-01', result: 'sold' }] });
  const farm = farmWith([caseOf('12', closed), caseOf('34', seen('34'))]);
  const book = composeBook(fullPractice, farm, today);
  expect(book.animals.map(({ number }) => number)).toEqual(['34']);
  expect(book.closed.map(({ number, chip, kicker }) => [number, chip, kicker])).toEqual([
    ['12', 'Closed: sold', 'Case 2 of 2 · Quernholt · 10 March 2026'],
  ]);
  expect(await renderBook(book)).toContain('closed-cases');
  expect(composeBook(fullPractice, farm, today, { openOnly: true }).closed).toEqual([]);
});

test('a farm without an animal, and one with nothing due, say so in a sentence', () => {
  const empty = composeBook(fullPractice, farmWith([]), today);
  expect(empty.next).toMatchObject({ lead: ['Nothing is due on this farm today.'] });
  expect(empty.vetList.table).toBeUndefined();
  expect(empty.withheld.table).toBeUndefined();
  expect(empty.herd).toBeUndefined();
  expect(empty.contents.empty).toContain('No animal is in this book yet');
  expect(empty.cover.facts.map(({ value }) => value)).toContain('none yet');
});

test('a book is composed for a day, not for now', () => {
  const [early, late] = ['2026-02-20', '2026-06-01'].map((day) => composeBook(fullPractice, fullFarm, day));
  expect(early!.running).toBe('Quernholt · 20 February 2026');
  expect(late!.running).toBe('Quernholt · 1 June 2026');
});

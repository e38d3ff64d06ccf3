import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { dueInWords, jobInShort } from '../../src/words/compose-due.js';
import { dayInWords } from '../../src/words/day-and-place.js';
import { wordsOf } from '../../src/reference/words.js';
import { addDays } from '../../src/record/calendar-day.js';
import { demo, today as demoDay, workedOut } from '../demo/read-demo.js';
import { caseOf, farmWith, fullFarm, fullPractice } from './full-practice.js';
import { plain } from '../words/plain.js';

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

const rowsOf = (book: ReturnType<typeof composeBook>) =>
  (book.next.table?.groups ?? []).flatMap(({ heading, rows }) =>
    rows.map(({ by, note, what, animals }) => ({
      group: heading,
      by,
      note,
      what,
      animals: animals.map(({ text, after, marks }) => [text, after, marks]),
    })),
  );

test('one job of one day is one row with all its animals, linked, with the number of the case', () => {
  const farm = farmWith([
    caseOf('12', seen('12', {}, { recheck: '2026-03-24' })),
    caseOf('34', seen('34', {}, { recheck: '2026-03-24' })),
    caseOf('56', seen('56', {}, { recheck: '2026-03-31' })),
  ]);
  const book = plain(composeBook(fullPractice, farm, today));
  const lifts = rowsOf(book).filter(({ what }) => what === 'Lift and look again');
  expect(lifts).toEqual([
    {
      group: 'Trimmer',
      by: 'Tue 24 March',
      note: undefined,
      what: 'Lift and look again',
      animals: [
        ['12', '(1)', 'falls before our visit'],
        ['34', '(2)', 'falls before our visit'],
      ],
    },
    {
      group: 'Trimmer',
      by: 'Tue 31 March',
      note: 'our visit',
      what: 'Lift and look again',
      animals: [['56', '(3)', '']],
    },
  ]);
  expect(book.next.table!.groups[0]!.rows[0]!.animals[0]!.href).toBe('#animal-12');
});

test('what is overdue stands first, in one row a job whatever its days, the later days beside the animals', () => {
  const off = (by: string) => ({ 'ask-farm': [{ what: 'wrap off', by }] });
  const farm = farmWith([
    caseOf('12', seen('12', {}, off('2026-03-02'))),
    caseOf('34', seen('34', {}, off('2026-02-26'))),
    caseOf('56', seen('56', {}, off('2026-03-17'))),
  ]);
  const rows = rowsOf(plain(composeBook(fullPractice, farm, today))).filter(({ what }) =>
    /the wrap off/.test(what),
  );
  expect(rows).toEqual([
    {
      group: 'Overdue',
      by: 'Thu 26 February',
      note: undefined,
      what: 'Farm: take the wrap off',
      animals: [
        ['34', '(2)', ''],
        ['12', '(1)', 'from Mon 2 March'],
      ],
    },
    {
      group: 'Farm',
      by: 'Tue 17 March',
      note: undefined,
      what: 'Take the wrap off',
      animals: [['56', '(3)', '']],
    },
  ]);
});

test('a farm’s task that runs to a day runs until then, and after it is a question and never overdue', () => {
  const straw = (by: string) => ({ 'ask-farm': [{ what: 'straw pen', by }] });
  const farm = farmWith([
    caseOf('12', seen('12', {}, straw('2026-03-02'))),
    caseOf('56', seen('56', {}, straw('2026-03-17'))),
  ]);
  const rows = rowsOf(plain(composeBook(fullPractice, farm, today))).filter(({ what }) => /straw/.test(what));
  expect(rows.map(({ group, by, note, what }) => [group, by, note, what])).toEqual([
    ['Farm', 'Mon 2 March', 'since then', 'Was it done: keep her on straw?'],
    ['Farm', 'Tue 17 March', 'until then', 'Keep her on straw'],
  ]);
});

test('who is close to calving is said on page one, under what to do; with nobody close nothing is', () => {
  const caseWith = (due: string) => caseOf('12', seen('12', { 'due-to-calve': due }, {}));
  const calving = (due: string) =>
    plain(composeBook(fullPractice, farmWith([caseWith(due)]), today)).next.calving;
  expect(calving(addDays(today, 21))).toMatch(
    /^Near calving, agree before lifting: 12, due to calve .*\. Keep the lift as short as possible; no belly strap, no tilting on the side\.$/,
  );
  expect(calving(addDays(today, 200))).toBeUndefined();
});

test('ringing the vet the same day stands before what is overdue', () => {
  const bone = { found: { a: { state: 'open', top: 17, signs: ['bone'] } }, recheck: '2026-02-20' };
  const rows = rowsOf(
    plain(composeBook(fullPractice, farmWith([caseOf('34', seen('34', {}, bone))]), today)),
  );
  expect(rows[0]).toMatchObject({ group: 'Before all else', what: 'Farm: ring the vet the same day' });
  expect(rows[1]!.group).toBe('Overdue');
});

test('a day of another year says its year', () => {
  const farm = farmWith([caseOf('12', seen('12', {}, { recheck: '2027-01-05' }))]);
  expect(rowsOf(plain(composeBook(fullPractice, farm, today))).map(({ by }) => by)).toContain(
    'Tue 5 January 2027',
  );
});

test('everything due in the demo stands on the animal’s page with its reason, and on page one with her number', () => {
  let count = 0;
  for (const farm of demo.practice.farms) {
    const book = plain(composeBook(demo.practice, farm, demoDay));
    const words = wordsOf(book.language);
    const pages = [...book.animals, ...book.closed];
    const rows = rowsOf(book);
    const onPageOne = new Set(
      rows.flatMap(({ what, animals }) => animals.map(([number]) => `${number} ${what.toLowerCase()}`)),
    );
    const held = new Set(book.withheld.table?.rows.map(({ cells }) => cells[0]!.text));
    for (const record of farm.cases) {
      const { animal } = record;
      const said = pages
        .find(({ number }) => number === animal.animal)!
        .next?.items.map(({ lead, text }) => `${lead} ${text}`)
        .join('\n');
      for (const item of workedOut(record, farm).due.filter(({ standing }) => standing !== 'done')) {
        count += 1;
        const { what, why } = plain(dueInWords(words, animal, item));
        expect(said).toContain(what);
        expect(said!.toLowerCase()).toContain(why.toLowerCase());
        expect(said).toContain(dayInWords(words, item.by));
        if (/-clear$|withdrawal/.test(item.what)) expect(held).toContain(animal.animal);
        else {
          const job = jobInShort(words, animal, item).job.toLowerCase();
          const whose = `${words.say(`book.who.${item.who}`)}: ${job}`;
          expect(
            [job, whose].some((name) => onPageOne.has(`${animal.animal} ${name}`)),
            `${animal.animal}: ${whose}`,
          ).toBe(true);
        }
      }
    }
  }
  expect(count).toBeGreaterThan(20);
});

const product = { product: 'spray', class: 'medicine', on: '2026-03-08' };
const treated = (...products: object[]) =>
  plain(
    composeBook(
      fullPractice,
      farmWith([caseOf('12', seen('12', { calvings: ['2025-11-01'] }, { date: '2026-03-08', products }))]),
      today,
    ),
  );

test('withheld animals are one line each, with the last withheld and the first clear day, and are not said again above', () => {
  const book = treated(
    { ...product, 'milk-days': 4, 'meat-days': 0 },
    { ...product, 'milk-days': 2, 'meat-days': 9 },
  );
  expect(book.withheld.table!.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
    ['12', 'to Thu 12 March; clear Fri 13 March', 'to Tue 17 March; clear Wed 18 March'],
  ]);
  expect(JSON.stringify(book.next)).not.toContain('withheld');
});

test('a period nobody wrote down outweighs a day that is known', () => {
  const [, milk, meat] = treated(
    { ...product, 'milk-days': 4, 'meat-days': 0 },
    { ...product, 'meat-days': 0 },
  ).withheld.table!.rows[0]!.cells;
  expect(milk).toEqual({
    text: 'not known: treat as withheld, ask the vet',
    strong: true,
    note: 'spray, last given 8 March 2026: no milk period.',
  });
  expect(meat).toEqual({ text: 'not withheld by the record' });
});

test('the vet’s list has one row an animal, most urgent first, with the chief reason and how many more', () => {
  const signs = { gait: 3, found: { a: { state: 'open', top: 17, signs: ['bone'] } } };
  const book = plain(
    composeBook(
      fullPractice,
      farmWith([
        caseOf('12', seen('12', {}, { found: { a: { state: 'open', top: 0 } } })),
        caseOf('34', seen('34', {}, signs)),
      ]),
      today,
    ),
  );
  const rows = book.vetList.table!.rows.map(({ cells }) => cells.map(({ text }) => text));
  expect(rows).toEqual([
    ['34', 'the same day', 'Bone seen, left hind; one more reason', 'not recorded as asked'],
    ['12', 'at this visit', 'Gap at the coronet, left hind', 'not recorded as asked'],
  ]);
  expect(book.animals.map(({ number }) => number)).toEqual(['34', '12']);
  expect(book.vetList.lead[0]).toContain('Ossgrain Veterinary Practice; P. Wexmarrow; 01632 960177');
});

test('closed cases come after the open ones, folded, and are left out of a short book', async () => {
  const closed = seen('12', { episodes: [{ ended: '2026-03-01', result: 'sold' }] });
  const farm = farmWith([caseOf('12', closed), caseOf('34', seen('34'))]);
  const book = plain(composeBook(fullPractice, farm, today));
  expect(book.animals.map(({ number }) => number)).toEqual(['34']);
  expect(book.closed.map(({ number, chip, kicker }) => [number, chip, kicker])).toEqual([
    ['12', 'Closed: sold', 'Case 2 of 2 · Quernholt · 10 March 2026'],
  ]);
  expect(await renderBook(book)).toContain('closed-cases');
  expect(plain(composeBook(fullPractice, farm, today, { openOnly: true })).closed).toEqual([]);
});

test('a farm without an animal, and one with nothing due, say so in a sentence', () => {
  const empty = plain(composeBook(fullPractice, farmWith([]), today));
  expect(empty.next).toMatchObject({ lead: 'Nothing is due on this farm today.' });
  expect(empty.vetList.table).toBeUndefined();
  expect(empty.withheld.table).toBeUndefined();
  expect(empty.herd.strips).toEqual([]);
  expect(empty.contents.empty).toContain('No animal is in this book yet');
  expect(empty.cover.facts.map(({ value }) => value)).toContain('none yet');
});

test('a book is composed for a day, not for now', () => {
  const [early, late] = ['2026-02-20', '2026-06-01'].map((day) =>
    plain(composeBook(fullPractice, fullFarm, day)),
  );
  expect(early!.running).toBe('Quernholt · 20 February 2026');
  expect(late!.running).toBe('Quernholt · 1 June 2026');
});

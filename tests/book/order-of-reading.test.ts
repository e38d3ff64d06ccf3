import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import type { Practice } from '../../src/record/practice.js';
import { caseOf, farmWith, fullFarm, fullPractice } from './full-practice.js';
import { plain } from '../words/plain.js';

const today = '2026-03-10';
const gap = { a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' } };
const found = { a: { state: 'open', top: 17, wall: 43, tool: 'ruler', 'top-found': 'seen' } };
const visit = { date: '2026-02-10', by: 'Orla Venn', kind: 'first', found };
const animal = (number: string, more: object = {}) =>
  caseOf(number, { casefile: 1, animal: number, lesions: gap, visits: [visit], ...more });
const sold = { episodes: [{ ended: '2026-03-01', result: 'sold' }] };
const product = {
  product: 'injection',
  class: 'medicine',
  on: '2026-02-10',
  'milk-days': 4,
  'meat-days': 60,
};
const soldAndWithheld = { ...sold, visits: [{ ...visit, products: [product] }] };

const farm = farmWith([...fullFarm.cases, animal('34'), animal('51', sold), animal('52', soldAndWithheld)]);
const idsOf = (html: string) => [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!);

const parts = [
  'top',
  'next',
  'vet-list',
  'withheld',
  'herd',
  'contents',
  'animal-0312',
  'animal-34',
  'closed',
  'animal-51',
  'animal-52',
  'farm',
  'footbath',
  'last',
  'numbers',
  'sources',
  'glossary',
  'gaps',
  'sign',
];

test('every part of a book stands, in the order of reading, and every link leads to a place in it', async () => {
  const html = await renderBook(plain(composeBook(fullPractice, farm, today)));
  const ids = idsOf(html);
  expect(ids.filter((id) => parts.includes(id))).toEqual(parts);
  expect(new Set(ids).size).toBe(ids.length);
  const links = [...html.matchAll(/ href="#([^"]+)"/g)].map(([, id]) => id!);
  expect(links.filter((id) => !ids.includes(id))).toEqual([]);
  for (const part of parts.slice(6)) if (part !== 'closed') expect(links, part).toContain(part);
  for (const [, section] of html.matchAll(
    /<(?:article|section) class="(?:animal|animal closed|page|page footbath)"([^]*?)(?=<article|<section class="(?:page|closed)|<\/main>)/g,
  ))
    expect(section).toContain('href="#contents"');
});

test('the case numbers of page one, the strips, the contents and the pages are the same', () => {
  const book = plain(composeBook(fullPractice, farm, today));
  const places = new Map(
    [...book.animals, ...book.closed].map(({ id, kicker }) => [
      `#${id}`,
      /^Case (\d+) of 4/.exec(kicker)![1],
    ]),
  );
  const said = [
    ...book.next.table!.groups.flatMap(({ rows }) => rows.flatMap(({ animals }) => animals)),
    ...[book.vetList, book.withheld, book.last.missing!].flatMap(({ table }) =>
      table!.rows.map(({ cells }) => cells[0]!).filter(({ href }) => href),
    ),
    ...book.herd.strips.map(({ href, place }) => ({ href, after: place })),
  ];
  expect(said.length).toBeGreaterThan(8);
  for (const { href, after } of said) expect(after).toBe(`(${places.get(href!)})`);
  for (const { href, place } of [...book.contents.open, ...book.contents.closed])
    expect(place).toBe(`Case ${places.get(href)}`);
});

test('a short book leaves closed cases out and says how many, but keeps one whose meat is withheld', async () => {
  const book = plain(composeBook(fullPractice, farm, today, { openOnly: true }));
  expect(book.animals.map(({ number }) => number)).toEqual(['0312', '34']);
  expect(book.closed.map(({ number }) => number)).toEqual(['52']);
  expect(book.contents.leftOut).toBe('A short book: one closed case is left out. The whole book has it.');
  expect(book.cover.facts.map(({ value }) => value)).toContain('3 in this short book; 1 closed left out');
  expect(book.withheld.table!.rows.map(({ cells }) => cells[0]!.text)).toContain('52');
  const html = await renderBook(book);
  expect(html).toContain('one closed case is left out');
  expect(html).not.toContain('animal-51');
});

test('what still holds of a closed case stands above its fold', async () => {
  const html = await renderBook(
    plain(composeBook(fullPractice, farmWith([animal('52', soldAndWithheld)]), today)),
  );
  const page = html.slice(html.indexOf('id="animal-52"'));
  expect(page.slice(0, page.indexOf('<details'))).toContain('Meat withheld through');
});

test('a short book of a farm without a closed case says that none is left out', () => {
  const { contents } = plain(composeBook(fullPractice, farmWith([animal('34')]), today, { openOnly: true }));
  expect(contents.leftOut).toContain('No closed case is left out');
});

test('what is not there is said in plain words: nothing due, no vet, nobody withheld, no strip, no open case, no case', async () => {
  const { vet: _vet, ...noVet } = fullFarm.farm;
  const allClosed = { ...farmWith([animal('51', sold)]), farm: noVet };
  const closedBook = plain(composeBook(fullPractice, allClosed, today));
  expect(closedBook.next).toEqual({
    id: 'next',
    heading: 'What to do next',
    lead: 'Nothing is due on this farm today.',
  });
  expect(closedBook.vetList.lead).toEqual([
    'Nothing in the records calls for the vet today. No vet is written down for this farm.',
  ]);
  expect(closedBook.withheld.lead).toEqual(['No milk or meat is withheld today by what is recorded.']);
  expect(closedBook.herd.lead).toContain('no strip to show');
  expect(closedBook.contents.empty).toBe('No case is open on this farm.');
  const emptyBook = plain(composeBook({ business: {}, narrative: '', farms: [] }, farmWith([]), today));
  expect(emptyBook.contents.empty).toContain('No animal is in this book yet');
  for (const book of [closedBook, emptyBook]) {
    const html = await renderBook(book);
    const ids = idsOf(html).filter((id) => parts.includes(id) && !id.startsWith('animal') && id !== 'closed');
    expect(ids).toEqual(parts.filter((id) => !id.startsWith('animal') && id !== 'closed'));
    for (const sentence of [...book.vetList.lead, ...book.withheld.lead, book.next.lead, book.herd.lead])
      expect(html).toContain(sentence);
  }
});

test('the sign-off names the business, and says so where it is not written down', () => {
  const signOf = (business: Practice['business']) =>
    plain(composeBook({ ...fullPractice, business }, farmWith([]), today)).last.sign;
  expect(signOf({ business: 'Quillfen Foot Trimming' })).toMatchObject({
    lead: expect.stringMatching(/^Signed for Quillfen Foot Trimming: /) as string,
    lines: ['Name', 'Day', 'Signature'],
  });
  expect(signOf({ trimmer: 'Marra Quillfen' }).lead).toMatch(/^Signed for Marra Quillfen: /);
  expect(signOf({}).lead).toContain('The name of the business is not written down.');
});

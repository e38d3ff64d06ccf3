import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { addDays } from '../../src/record/calendar-day.js';
import { wordsOf } from '../../src/reference/words.js';
import { isJob } from '../../src/schedule/due/due-item.js';
import { isOpen } from '../../src/schedule/next-lift.js';
import { dueInWords, jobInShort } from '../../src/words/compose-due.js';
import { planDay, sentenceCase } from '../../src/words/day-and-place.js';
import { demo, today as demoDay, workedOut } from '../demo/read-demo.js';
import { plain } from '../words/plain.js';
import { caseOf, farmWith, fullFarm, fullPractice } from './full-practice.js';

const today = '2026-03-10';
const gap = { a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' } };
const found = { a: { state: 'open', top: 17, wall: 43, tool: 'ruler', 'top-found': 'seen' } };

/** One case, its one visit, and what a test is about. */
const seen = (animal: string, visit: object = {}, more: object = {}) =>
  caseOf(animal, {
    casefile: 1,
    animal,
    lesions: gap,
    visits: [{ date: '2026-02-10', by: 'Orla Venn', kind: 'first', found, ...visit }],
    ...more,
  });
const bookOf = (...cases: ReturnType<typeof caseOf>[]) =>
  plain(composeBook(fullPractice, farmWith(cases), today));
const oneOf = (...cases: ReturnType<typeof caseOf>[]) => bookOf(...cases).one;
const sold = { episodes: [{ ended: '2026-03-01', result: 'sold' }] };
const bone = { found: { a: { state: 'open', top: 17, signs: ['bone'] } } };
const blisters = { feet: { RF: { lifted: true, signs: ['blisters'] } } };
const spray = { product: 'spray', class: 'medicine', on: '2026-03-08' };
const treated = (...products: object[]) => seen('12', { date: '2026-03-08', products }, { calvings: ['2025-11-01'] }); // prettier-ignore

test('it is read in this order: stop work, what cannot wait, what is withheld, the farm, whom to pen, the vet, the cows', async () => {
  const html = await renderBook(
    bookOf(seen('12', { ...blisters, products: [{ ...spray, on: '2026-02-10', 'meat-days': 60 }], recheck: today }), seen('34', bone)), // prettier-ignore
  );
  const places = ['class="stop"', 'class="urgent"', 'id="withheld"', '>The farm<', '>Pen for', '>The vet<', 'id="contents"', 'id="farm"', 'id="animal-'].map((part) => html.indexOf(part)); // prettier-ignore
  expect(places).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test('every link leads to a place in the book, no id is there twice, and each cow has her number, open before closed', async () => {
  const book = bookOf(...fullFarm.cases, seen('34', { recheck: today }), seen('51', {}, sold));
  const html = await renderBook(book);
  const ids = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!);
  expect(new Set(ids).size).toBe(ids.length);
  const links = [...html.matchAll(/ href="#([^"]+)"/g)].map(([, id]) => id!);
  expect(links.filter((id) => !ids.includes(id))).toEqual([]);
  expect(ids.filter((id) => /^animal-\w+$/.test(id))).toEqual(['animal-0312', 'animal-34', 'animal-51']);
  for (const id of ['animal-0312', 'animal-34', 'animal-51']) expect(links).toContain(id);
  expect(book.one.cows.rows.map(({ number, sheet }) => [number, sheet])).toEqual([['0312', '2'], ['34', '3']]); // prettier-ignore
  expect(book.farm.closed!.rows).toEqual([{ href: '#animal-51', number: '51', text: 'Closed: sold, 1 March 2026, sheet 4' }]); // prettier-ignore
  for (const { number, running } of book.cows)
    expect(running).toMatch(new RegExp(`^${number} · .* · sheet \\d$`));
});

test('whom to pen: all that is due by the visit on its day, later lifts by their days, and near calving is agreed first', () => {
  const { pen } = oneOf(
    seen('12', { recheck: '2026-03-24' }),
    seen('34', { recheck: '2026-03-31' }, { 'due-to-calve': addDays(today, 21), calvings: ['2025-05-01'] }),
    seen('56', { recheck: '2026-04-14' }),
  );
  expect(pen.heading).toBe('Pen for Tue 31 March');
  expect(pen.numbers.map(({ number, href }) => [number, href])).toEqual([['12', '#animal-12'], ['34', '#animal-34']]); // prettier-ignore
  expect(pen.later).toEqual([{ day: 'Tue 14 April', numbers: '56' }]);
  expect(pen.notes).toEqual([expect.stringMatching(/^34: due to calve .*Agree first; shortest lift\.$/)]);
  expect(oneOf(seen('12', {}, { 'due-to-calve': addDays(today, 200) })).pen.notes).toEqual([]);
});

test('a job that is late says so in words and before the others', () => {
  const off = (by: string) => ({ 'ask-farm': [{ what: 'wrap off', by }] });
  const { rows } = oneOf(seen('12', off('2026-03-17')), seen('34', off('2026-02-26')), seen('56', off('2026-03-02'))).farmJobs; // prettier-ignore
  const wraps = rows.filter(({ job }) => /wrap off/.test(job));
  expect(wraps.map(({ number, when, late }) => [number, when, late])).toEqual([
    ['34', 'overdue since Thu 26 February', true],
    ['56', 'overdue since Mon 2 March', true],
    ['12', expect.stringContaining('Tue 17 March'), false],
  ]);
});

test('a farm’s task that runs to a day runs until then, and after it is a question and never overdue', () => {
  const straw = (by: string) => ({ 'ask-farm': [{ what: 'straw pen', by }] });
  const { farmJobs } = oneOf(seen('12', straw('2026-03-02')), seen('56', straw('2026-03-17')));
  expect(farmJobs.rows.filter(({ job }) => /straw/.test(job))).toEqual([
    { href: '#animal-56', number: '56', job: 'Keep her on straw', when: expect.stringContaining('Tue 17 March'), late: false }, // prettier-ignore
  ]);
  expect(farmJobs.yesOrNo).toBe('Done? 12 keep her on straw (2 Mar)');
});

test('what stops work and what cannot wait come above all else', () => {
  const one = oneOf(seen('12', blisters), seen('34', bone));
  expect(one.stop!.title).toBe('Stop work: stay on the farm');
  expect(one.urgent.map(({ number }) => number)).toContain('34');
  expect(one.urgent.find(({ number }) => number === '34')!.text).toMatch(/^Ring the vet the same day; Bone seen/); // prettier-ignore
  expect(one.farmJobs.rows.some(({ job }) => /ring the vet the same day/i.test(job))).toBe(false);
  const quiet = oneOf(seen('12'));
  expect([quiet.stop, quiet.urgent]).toEqual([undefined, []]);
});

test('a day of another year says its year', () => {
  const { pen } = oneOf(seen('12', { recheck: '2027-01-05' }));
  expect(pen.later.map(({ day }) => day)).toEqual(['Tue 5 January 2027']);
});

test('of each side the withheld animals are in one line, with the last withheld and the first clear day', () => {
  const { withheld } = oneOf(treated({ ...spray, 'milk-days': 4, 'meat-days': 0 }, { ...spray, 'milk-days': 2, 'meat-days': 9 })); // prettier-ignore
  expect(withheld!.heading).toBe('Withdrawal: do not sell');
  expect(withheld!.lines).toEqual([
    { what: 'Milk', text: '12 to Thu 12 March; clear Fri 13 March' },
    { what: 'Meat', text: '12 to Tue 17 March; clear Wed 18 March' },
  ]);
  expect(withheld!.register).toContain('medicine register is the legal record');
});

test('a period nobody wrote down outweighs a day that is known, and one that left is still named', () => {
  const { withheld } = oneOf(treated({ ...spray, 'milk-days': 4, 'meat-days': 0 }, { ...spray, 'meat-days': 0 })); // prettier-ignore
  expect(withheld!.lines).toEqual([
    { what: 'Milk', text: '12 not known: treat as under withdrawal, ask the vet' },
  ]);
  const left = oneOf(seen('52', { products: [{ ...spray, on: '2026-02-10', 'milk-days': 4, 'meat-days': 60 }] }, { ...sold, calvings: ['2025-11-01'] })); // prettier-ignore
  expect(left.withheld!.lines).toEqual([{ what: 'Meat', text: expect.stringMatching(/^52 to /) }]);
});

test('the vet’s list has one row an animal, most urgent first, with the chief reason, how many more and whether the vet was asked', () => {
  const { vet, cows } = oneOf(seen('12', { found: { a: { state: 'open', top: 0 } } }), seen('34', { gait: 3, ...bone })); // prettier-ignore
  expect(vet.rows.map(({ number, why, asked, late }) => [number, why, asked, late])).toEqual([
    ['34', 'Bone seen, left hind; one more reason', 'Vet not contacted', true],
    ['12', 'Gap at the coronet, left hind', 'Vet not contacted', false],
  ]);
  expect(vet.who).toBe('Ossgrain Veterinary Practice, P. Wexmarrow, 01632 960177');
  expect(cows.rows.map(({ number }) => number)).toEqual(['34', '12']);
});

test('a cow has one row: her lesion, her status, how she walks, how far it has grown down and when it should be out', () => {
  const [row] = oneOf(seen('12', { gait: 2, 'on-block': false, recheck: '2026-02-24' })).cows.rows;
  expect(row).toMatchObject({
    number: '12',
    place: 'LH outer claw',
    lesion: 'white line disease (WL)',
    walk: 'score 2, 10 Feb',
    reading: '17 of 43',
    lateLift: 'was due 24 Feb',
    lift: '31 Mar',
    sheet: '2',
  });
  expect(row!.out).toMatch(/^\d+ \w+ – \d+ \w+/);
  expect(row!.strip).toContain('<svg');
});

test('a short book leaves closed cases out and says how many, but keeps one whose meat is withheld', async () => {
  const withheld = seen('52', { products: [{ ...spray, on: '2026-02-10', 'milk-days': 4, 'meat-days': 60 }] }, sold); // prettier-ignore
  const farm = farmWith([...fullFarm.cases, seen('34'), seen('51', {}, sold), withheld]);
  const book = plain(composeBook(fullPractice, farm, today, { openOnly: true }));
  expect(book.cows.map(({ number }) => number)).toEqual(['0312', '34', '52']);
  expect(book.one.cows.note).toContain('A short book: one closed case is left out. It is in the full book.');
  const html = await renderBook(book);
  expect(html).toContain('one closed case is left out');
  expect(html).not.toContain('animal-51');
  const none = plain(composeBook(fullPractice, farmWith([seen('34')]), today, { openOnly: true }));
  expect(none.one.cows.note).toContain('No closed case is left out');
});

test('what is not there is said in plain words: nothing asked, nobody to pen, no vet, nobody withheld, no open case', async () => {
  const { vet: _vet, ...noVet } = fullFarm.farm;
  const closed = plain(
    composeBook(fullPractice, { ...farmWith([seen('51', {}, sold)]), farm: noVet }, today),
  );
  const empty = plain(composeBook({ business: {}, narrative: '', farms: [] }, farmWith([]), today));
  expect(closed.one.vet.who).toBe('No vet is recorded for this farm.');
  for (const book of [closed, empty]) {
    const { one } = book;
    expect(one).toMatchObject({ urgent: [], farmJobs: { rows: [] }, pen: { numbers: [] }, vet: { rows: [] } }); // prettier-ignore
    expect([one.stop, one.withheld]).toEqual([undefined, undefined]);
    const html = await renderBook(book);
    for (const sentence of [
      one.notWithheld,
      one.farmJobs.nothing,
      one.pen.nothing,
      one.vet.nothing,
      'No case is open',
    ])
      // prettier-ignore
      expect(html).toContain(sentence);
  }
});

test('everything due in the demo is on her sheet under who does it, and on page one where it is the farm’s or cannot wait', () => {
  let count = 0;
  for (const farm of demo.practice.farms) {
    const book = plain(composeBook(demo.practice, farm, demoDay));
    const words = wordsOf(book.language);
    for (const record of farm.cases) {
      const { animal } = record;
      const page = book.cows.find(({ number }) => number === animal.animal)!;
      for (const item of workedOut(record, farm).due.filter((one) => isOpen(one) && isJob(one))) {
        count += 1;
        const { jobs } = page.columns[['farm', 'trimmer', 'vet'].indexOf(item.who)]!;
        const { what } = plain(dueInWords(words, animal, item));
        const line = jobs.find(({ lead, text }) => text === what && lead.includes(planDay(words, item.by, demoDay))); // prettier-ignore
        expect(line, `${animal.animal}: ${what}`).toBeDefined();
        if (item.who !== 'farm') continue;
        const job = sentenceCase(jobInShort(words, animal, item).job);
        const { farmJobs, urgent } = book.one;
        const said = [...farmJobs.rows.map((row) => ({ number: row.number, text: row.job })), ...urgent].some(({ number, text }) => number === animal.animal && text.startsWith(job)); // prettier-ignore
        expect(said || farmJobs.yesOrNo?.includes(animal.animal), `${animal.animal}: ${job}`).toBe(true);
      }
    }
  }
  expect(count).toBeGreaterThan(20);
});

test('a book is composed for a day, not for now', () => {
  const on = (day: string) => plain(composeBook(fullPractice, fullFarm, day));
  expect(on('2026-02-20').running).toBe('Quernholt · 20 February 2026');
  expect(on('2026-06-01').one.asOn.value).toBe('Mon 1 June 2026');
});

test('its back says what holds for every cow: when anybody rings the vet, what to do when a block comes off, what is never done', async () => {
  const book = bookOf(seen('12'));
  expect(book.farm.boxes.map(({ items }) => items.length > 1)).toEqual([true, true]);
  const said = book.farm.always.items.join(' ');
  expect(said).toMatch(/live tissue/i);
  const html = await renderBook(book);
  for (const text of book.farm.always.items) expect(html.split(text.slice(0, 40)).length).toBe(2);
});

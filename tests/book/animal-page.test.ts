import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import { farmWith, practiceOf } from '../growth/invented-practice.js';
import { cow, quernholt, visit } from '../schedule/a-case.js';

const today = '2026-06-10';
const pageOf = (animal: Animal, more: Partial<Farm> = {}) => {
  const farm = farmWith('quernholt', { '2041': animal }, { ...quernholt, ...more });
  return composeBook(practiceOf(farm), farm, today).animals[0]!;
};
const ulcer = (...widths: [string, number, string?][]) =>
  cow(
    widths.map(([date, width, recheck]) =>
      visit(date, {
        found: { a: { state: 'open', width, tool: 'calliper' } },
        ...(recheck === undefined ? {} : { recheck }),
      }),
    ),
    { lesions: { a: { code: 'SU', foot: 'RH', claw: 'outer' } } },
  );
const gap = (date: string, top: number, more: Partial<Animal['visits'][number]> = {}) =>
  visit(date, { found: { a: { state: 'open', top, tool: 'ruler', 'top-found': 'seen' } }, ...more });

test('an ulcer has its date with its range in the statement, its basis beside it, and what to expect next', () => {
  const page = pageOf(ulcer(['2026-05-12', 20], ['2026-05-26', 14, '2026-06-16']), {
    'next-visit': '2026-06-11',
  });
  expect(page.statement).toMatch(
    /closed in from 20 to 14 mm .* between .* and .*\. Rough: 2 widths so far\./,
  );
  const [, closes, rests] = page.closings!.table!.rows[0]!.cells;
  expect(page.statement).toContain(closes!.text);
  expect(rests!.text).toMatch(/2 widths \(calliper\).*0\.5 mm of width a day.*not a diagnosis\.$/);
  expect(page.closings!.lead).toHaveLength(2);
  expect(page.next!.items.map(({ text }) => text).join(' ')).toMatch(/On 16 June 2026 it should be \d/);
  const strip = page.figures.find(({ id }) => id.endsWith('closing-a'))!;
  expect(strip.table.rows.at(-1)!.cells.map(({ text }) => text)).toContain('expected');
});

test('an ulcer that opened up is drawn as such, and a doubtful one is to be measured across again', () => {
  const reads = (animal: Animal) =>
    pageOf(animal)
      .figures.find(({ id }) => id.endsWith('closing-a'))!
      .table.rows.map(({ cells }) => cells.at(-1)!.text);
  expect(reads(ulcer(['2026-05-12', 20], ['2026-05-26', 30]))).toContain('opening up');
  const doubtful = pageOf(ulcer(['2026-05-12', 20], ['2026-05-26', 21]));
  expect(doubtful.closings!.lead).toHaveLength(2);
  expect(doubtful.next!.items.some(({ text }) => text.startsWith('Measure the width again'))).toBe(true);
});

test('that 8 in 10 should be out between two days is said only where there are two days', () => {
  expect(pageOf(cow([gap('2026-05-26', 12)])).forecasts!.lead).toHaveLength(2);
  const held = { state: 'open' as const, 'top-found': 'higher' as const };
  expect(pageOf(cow([visit('2026-05-26', { found: { a: held } })])).forecasts!.lead).toHaveLength(1);
});

test('from the coronet the next reading is said as what follows if sound horn does', () => {
  const page = pageOf(cow([gap('2026-05-26', 0, { recheck: '2026-06-23' })]));
  const expected = page.next!.items.find(({ lead }) => lead === 'What to expect')!;
  expect(expected.text).toMatch(/^If sound horn follows, the top should read /);
});

test('the reading worth taking stands in the box of what is next', () => {
  const page = pageOf(cow([gap('2026-05-26', 12, { recheck: '2026-06-23' })]));
  const worth = page.next!.items.find(({ lead }) => lead === 'Worth measuring')!;
  expect(worth.text).toMatch(/would narrow the date from ± \d+ weeks to ± \d+\.$/);
});

test('what the blocks leave in doubt is asked among the cautions', () => {
  const block = (claw: 'inner' | 'outer') => ({ foot: 'LH' as const, claw, event: 'fitted' as const });
  const page = pageOf(cow([gap('2026-05-26', 12, { blocks: [block('outer'), block('inner')] })]));
  const said = page.cautions!.items.join(' ');
  expect(page.cautions!.heading).toBe('Cautions');
  expect(said).toMatch(/two blocks have been on the left hind foot since 26 May 2026/);
  expect(said).toMatch(/under the claw with the open lesion \(left hind, outer claw\)/);
});

test('a date names the other cows it starts from, and none where there are none', () => {
  const grown = cow([gap('2026-01-06', 12), gap('2026-03-03', 24)]);
  const farm = farmWith('quernholt', { '2041': grown, '2042': grown, '2043': grown }, quernholt);
  const basis = composeBook(practiceOf(farm), farm, today).animals[0]!.forecasts!.table!.rows[0]!.cells[2]!;
  expect(basis.text).toMatch(
    /starting from published growth rates and 2 other cows on record up to 31 March 2026\./,
  );
  expect(pageOf(grown).forecasts!.table!.rows[0]!.cells[2]!.text).toMatch(/from published growth rates\. /);
});

test('the last page says what was learned, how far to trust it, and that few gaps tell little', () => {
  const farm = farmWith(
    'quernholt',
    { '2041': cow([gap('2026-01-06', 12), gap('2026-03-03', 24)]) },
    quernholt,
  );
  const { sections } = composeBook(practiceOf(farm), farm, today).last;
  expect(sections[0]!.items.at(-1)).toMatch(/^Cows on record .*: 1\. From so few no figure is given/);
  expect(sections[1]!.heading).toBe('How far the dates can be trusted');
  expect(sections[1]!.items).toHaveLength(4);
  expect(sections[1]!.items.at(-1)).toMatch(/no measured gap was seen healed up to 31 March 2026/);
});

test('walk runs beneath the first drawing there is, also where the first ulcer was never measured', () => {
  const page = pageOf(
    cow(
      [
        visit('2026-05-12', {
          gait: 2,
          found: { a: { state: 'open' }, b: { state: 'open', width: 20, tool: 'calliper' } },
        }),
        visit('2026-05-26', { gait: 1, found: { b: { state: 'open', width: 14, tool: 'calliper' } } }),
      ],
      {
        lesions: {
          a: { code: 'SU', foot: 'RH', claw: 'outer' },
          b: { code: 'SU', foot: 'LH', claw: 'outer' },
        },
      },
    ),
  );
  const drawn = page.figures.filter(({ svg }) => svg.includes('>walk</text>'));
  expect(drawn.map(({ id }) => id.replace(/.*-figure-/, ''))).toEqual(['closing-b']);
});

test('of a closed case no drawing tells a day on which a wall should be out', () => {
  const figureOf = (more: Partial<Animal>) => {
    const animal = cow([gap('2026-04-14', 12), gap('2026-05-26', 20)], more);
    const farm = farmWith('quernholt', { '2041': animal }, quernholt);
    const book = composeBook(practiceOf(farm), farm, today);
    return [...book.animals, ...book.closed][0]!.figures.find(({ id }) => id.includes('-figure-wall-'))!;
  };
  const said = ({ svg, phone = '', notes }: ReturnType<typeof figureOf>) => svg + phone + notes.join(' ');
  expect(said(figureOf({}))).toMatch(/Out: most likely about .*should be out /s);
  const closed = { episodes: [{ ended: '2026-06-01', result: 'culled' as const }] };
  expect(said(figureOf(closed))).not.toMatch(/should be out|Out: /);
});

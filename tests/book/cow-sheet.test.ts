import { expect, test } from 'vitest';
import { composeAnnex } from '../../src/book/annex.js';
import { composeBook } from '../../src/book/compose-book.js';
import type { CowSheet } from '../../src/book/cow-sheet.js';
import { renderBook } from '../../src/book/render-book.js';
import type { Animal } from '../../src/record/animal.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Farm } from '../../src/record/farm.js';
import { farmWith, practiceOf } from '../growth/invented-practice.js';
import { cow, quernholt, visit } from '../schedule/a-case.js';
import { plain } from '../words/plain.js';

const today = '2026-06-10';
const farmOf = (animal: Animal, more: Partial<Farm> = {}, narrative = '') => {
  const farm = farmWith('quernholt', { '2041': animal }, { ...quernholt, ...more });
  return { ...farm, cases: farm.cases.map((one) => ({ ...one, narrative })) };
};
const bookOf = (...of: Parameters<typeof farmOf>) => {
  const farm = farmOf(...of);
  return plain(composeBook(practiceOf(farm), farm, today));
};
const sheetOf = (...of: Parameters<typeof farmOf>): CowSheet => {
  const book = bookOf(...of);
  return book.cows[0]!;
};
const estimatesOf = (animal: Animal, more: Partial<Farm> = {}) => {
  const farm = farmOf(animal, more);
  return plain(composeAnnex(practiceOf(farm), farm, today, { read: () => undefined })).animals[0]!.estimates;
};
const verdictOf = ({ verdict }: CowSheet) => verdict.map(({ lead, text }) => `${lead} ${text}`).join(' ');
const figuresOf = ({ figures, overleaf, onScreen }: CowSheet) => [...figures, ...overleaf.figures, ...onScreen.figures]; // prettier-ignore

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

test('the verdict leads with what has grown down, then says when it should be out, with its range, and how she walks', () => {
  const sheet = sheetOf(cow([gap('2026-04-14', 12), gap('2026-05-26', 20, { gait: 2, 'on-block': false })]));
  const [one] = sheet.verdict;
  expect(one!.lead).toMatch(/^20 of \d+ mm has grown down \(\d+ \w+\)\.$/);
  expect(one!.text).toMatch(/between .* and /);
  expect(one!.text).toMatch(/\(2 on 26 May 2026\)\.$/);
  expect(sheet.what).toBe('Left hind, outer claw · white line disease (WL)');
  expect(verdictOf(sheet)).not.toMatch(/diagnos|cull|keep her/i);
});

test('where no change is shown, or the top went up, nothing is said to have grown down', () => {
  for (const [before, last] of [[12, 14], [20, 12], [4, 0]] as const) {
    const sheet = sheetOf(cow([gap('2026-04-14', before), gap('2026-05-26', last)]));
    expect(sheet.verdict[0]!.lead).toMatch(new RegExp(`^Top of the gap ${last} mm below the coronet, wall \\d+ mm \\(26 May\\)`));
    expect(verdictOf(sheet)).not.toContain('has grown down');
  }
}); // prettier-ignore

test('signs for the vet beyond those given in full are counted', () => {
  const animal = cow([
    gap('2026-05-26', 12, {
      signs: ['down', 'bleeding not stopped', 'joint or tendon', 'maggots'],
      feet: { LH: { lifted: true, signs: ['toe turned up', 'bone', 'necrosis'] } },
    }),
  ]);
  const [, ...told] = sheetOf(animal).back.vet!.items.toReversed();
  expect(told).toHaveLength(4);
  expect(sheetOf(animal).back.vet!.items.at(-1)).toMatch(/^\d+ more signs are listed with her visits\.$/);
});

test('an ulcer has its date with its range in the verdict, and its basis on the back and in the annex', () => {
  const animal = ulcer(['2026-05-12', 20], ['2026-05-26', 14, '2026-06-16']);
  const sheet = sheetOf(animal, { 'next-visit': '2026-06-11' });
  expect(verdictOf(sheet)).toMatch(/between .* and .*\. Rough: 2 widths so far\./);
  expect(sheet.back.basis!.items.join(' ')).toMatch(/2 widths \(calliper\)/);
  const [, closes, rests] = estimatesOf(animal)[0]!.table!.rows[0]!.cells;
  expect(verdictOf(sheet)).toContain(closes!.text);
  expect(rests!.text).toMatch(/2 widths \(calliper\).*0\.5 mm of width a day.*not a diagnosis\.$/);
  const strip = figuresOf(sheet).find(({ id }) => id.endsWith('closing-a'))!;
  expect(strip.table.rows.at(-1)!.cells.map(({ text }) => text)).toContain('expected');
});

test('an ulcer that opened up is drawn as such, and a doubtful one is to be measured across again', () => {
  const reads = (animal: Animal) =>
    figuresOf(sheetOf(animal))
      .find(({ id }) => id.endsWith('closing-a'))!
      .table.rows.map(({ cells }) => cells.at(-1)!.text);
  expect(reads(ulcer(['2026-05-12', 20], ['2026-05-26', 30]))).toContain('opening up');
  const doubtful = sheetOf(ulcer(['2026-05-12', 20], ['2026-05-26', 21]));
  expect(doubtful.columns[1]!.jobs.some(({ text }) => text.startsWith('Measure the width again'))).toBe(true);
});

test('that 8 in 10 should be out between two days is said only where there are two days', () => {
  expect(estimatesOf(cow([gap('2026-05-26', 12)]))[0]!.lead).toHaveLength(2);
  const held = { state: 'open' as const, 'top-found': 'higher' as const };
  expect(estimatesOf(cow([visit('2026-05-26', { found: { a: held } })]))[0]!.lead).toHaveLength(1);
});

test('what the blocks leave in doubt is asked among the cautions', () => {
  const block = (claw: 'inner' | 'outer') => ({ foot: 'LH' as const, claw, event: 'fitted' as const });
  const sheet = sheetOf(cow([gap('2026-05-26', 12, { blocks: [block('outer'), block('inner')] })]));
  const said = sheet.cautions!.items.join(' ');
  expect(said).toMatch(/two blocks on the left hind foot since 26 May 2026/);
  expect(said).toMatch(/on the claw with the open lesion \(left hind, outer claw\)/);
});

test('a date names the other cows it starts from, and none where there are none', () => {
  const grown = cow([gap('2026-01-06', 12), gap('2026-03-03', 24)]);
  const farm = farmWith('quernholt', { '2041': grown, '2042': grown, '2043': grown }, quernholt);
  const basis = plain(composeBook(practiceOf(farm), farm, today)).cows[0]!.back.basis!.items.join(' ');
  expect(basis).toMatch(
    /starting from published growth rates and 2 other cows on record up to 31 March 2026\./,
  );
  expect(sheetOf(grown).back.basis!.items.join(' ')).toMatch(/from published growth rates\./);
});

test('the annex says what was learned, how far to trust it, and that few gaps tell little', () => {
  const farm = farmOf(cow([gap('2026-01-06', 12), gap('2026-03-03', 24)]));
  const { sections } = plain(composeAnnex(practiceOf(farm), farm, today, { read: () => undefined })).last;
  expect(sections[0]!.items.at(-1)).toMatch(/^Cows on record .*: 1\. Too few for a figure/);
  expect(sections[1]!.heading).toBe('How far the dates can be trusted');
  expect(sections[1]!.items).toHaveLength(4);
  expect(sections[1]!.items.at(-1)).toMatch(/no measured gap was seen healed up to 31 March 2026/);
});

test('walk runs beneath the first drawing there is, also where the first ulcer was never measured', () => {
  const sheet = sheetOf(
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
  const drawn = figuresOf(sheet).filter(({ svg }) => svg.includes('>score</text>'));
  expect(drawn.map(({ id }) => id.replace(/.*-figure-/, ''))).toEqual(['closing-b']);
});

test('of a closed case no drawing and no verdict gives a day on which a wall should be out, and nobody is to ring', () => {
  const said = (more: Partial<Animal>) => {
    const sheet = sheetOf(cow([gap('2026-04-14', 12), gap('2026-05-26', 20)], more));
    const figure = figuresOf(sheet).find(({ id }) => id.includes('-figure-wall-'))!;
    return { text: figure.svg + (figure.phone ?? '') + figure.notes.join(' ') + verdictOf(sheet), sheet };
  };
  expect(said({}).text).toMatch(/Out: most likely about .*should be out /s);
  expect(said({}).sheet.ring!.items.length).toBeGreaterThan(1);
  const { text, sheet } = said({ episodes: [{ ended: '2026-06-01', result: 'culled' as const }] });
  expect(text).not.toMatch(/should be out|Out: /);
  expect([sheet.ring, sheet.back.basis]).toEqual([undefined, undefined]);
  expect(sheet.standing).toBe('Closed: culled');
});

test('what is withheld is above what is to be done, and a closed case still says it', async () => {
  const product = { product: 'x', class: 'medicine', 'milk-days': 0, 'meat-days': 60 } as const;
  for (const more of [{}, { episodes: [{ ended: '2026-06-01', result: 'sound' as const }] }]) {
    const book = bookOf(cow([gap('2026-05-26', 12, { products: [product] })], more));
    const html = await renderBook(book);
    const sheet = html.slice(html.indexOf('id="animal-2041"'));
    const front = sheet.slice(0, sheet.indexOf('class="cow-back"'));
    const at = front.indexOf('Meat: to Sat 25 July; clear Sun 26 July');
    expect(at).toBeGreaterThan(0);
    expect(at).toBeLessThan(front.indexOf('cow-jobs'));
  }
});

test('stop work and that she left under withdrawal are before the verdict', async () => {
  const product = { product: 'x', class: 'medicine', 'milk-days': 0, 'meat-days': 60 } as const;
  const html = await renderBook(
    bookOf(
      cow(
        [gap('2026-05-26', 12, { products: [product], feet: { RF: { lifted: true, signs: ['blisters'] } } })],
        { episodes: [{ ended: '2026-06-01', result: 'culled' }] },
      ),
    ),
  );
  const sheet = html.slice(html.indexOf('id="animal-2041"'));
  const places = ['Stop work: stay on the farm', 'Left under withdrawal', 'class="verdict"'].map((part) => sheet.indexOf(part)); // prettier-ignore
  expect(places).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

const walks = ['2026-03-03', '2026-03-31', '2026-04-28', '2026-05-26'];
const alike = { state: 'open', wall: 43, tool: 'tape', 'top-found': 'seen' } as const;

test('the back has every visit, latest first; what is the same at each appears once above them', () => {
  const { back } = sheetOf(
    cow(
      walks.map(
        (date, at) =>
        visit(date, { gait: 2, found: { a: { ...alike, top: 12 + at * 4, width: 9 } }, note: `said on ${date}` }), // prettier-ignore
      ),
    ),
  );
  expect(back.columns.map(({ head }) => head)).toEqual(['Day, by', 'Score', 'Top', 'Wall', 'Width', 'Found', 'Done', 'Asked, answered, noted']); // prettier-ignore
  expect(back.rows.map(({ day, cells }) => [day, ...cells.slice(0, 4)])).toEqual([
    ['26 May', '2', '24', '43', '9'],
    ['28 Apr', '2', '20', '43', '9'],
    ['31 Mar', '2', '16', '43', '9'],
    ['3 Mar', '2', '12', '43', '9'],
  ]);
  for (const [at, { cells }] of back.rows.entries()) {
    expect(cells.at(-1)).toContain(`aid on ${walks.at(-1 - at)}`);
    expect(cells.join(' ')).not.toMatch(/tape|seen/);
  }
  expect(back.lead).toMatch(/tape.*at each visit unless a row says otherwise$/s);
  expect(back.shortened).toBeUndefined();
});

test('where tools differ each row says its own, and word from the farm takes the whole row', () => {
  const { back } = sheetOf(
    cow([
      visit('2026-05-12', { found: { a: { ...alike, top: 12 } } }),
      visit('2026-05-20', { kind: 'report', by: 'Nan Thistlewrack', note: 'walks better' }),
      visit('2026-05-26', { found: { a: { ...alike, top: 13, tool: 'ruler' } } }),
    ]),
  );
  expect(back.lead).not.toContain('tape');
  expect(back.rows.map(({ cells }) => cells.join(' '))).toEqual([
    expect.stringContaining('uler'),
    expect.stringContaining('alks better'),
    expect.stringContaining('ape'),
  ]);
  expect(back.rows.map(({ report, cells }) => [report, cells.length])).toEqual([[false, 7], [true, 2], [false, 7]]); // prettier-ignore
});

test('a record too long for the back shortens its oldest visits, and counts them; the latest stays whole', () => {
  const note = 'Grit packed up under the wall again; taken off until it held tight all round. '.repeat(3);
  const visits = Array.from({ length: 30 }, (_, at) =>
    visit(addDays('2025-06-01', at * 12), { gait: 1, found: { a: { ...alike, top: 5 + at / 2 } }, note }),
  );
  const { back } = sheetOf(cow(visits));
  const whole = back.rows.filter(({ by }) => by !== '');
  const shortened = back.rows.filter(({ by }) => by === '');
  const dropped = 30 - back.rows.length;
  expect(whole.length).toBeGreaterThan(2);
  expect(shortened.length + dropped).toBeGreaterThan(5);
  expect(back.rows.slice(0, whole.length)).toEqual(whole);
  expect(back.rows[0]!.cells.at(-1)).toContain('Grit packed up');
  for (const [at, { cells }] of shortened.entries())
    expect(cells.slice(1, 3)).toEqual([String(5 + (29 - whole.length - at) / 2), '43']);
  if (shortened.length > 0) expect(back.shortened).toContain(`${shortened.length} older visits are cut to their numbers`); // prettier-ignore
  if (dropped > 0) expect(back.shortened).toContain(`${dropped} visits older still stand in the annex alone`);
});

test('a long story goes overleaf or to the screen, which the sheet says, and is nowhere twice', async () => {
  const told = Array.from({ length: 60 }, (_, at) => `Paragraph ${at} of what happened to her, at some length, as it was told.`); // prettier-ignore
  const book = bookOf(cow([gap('2026-05-12', 12), gap('2026-05-26', 16)]), {}, told.join('\n\n'));
  const [sheet] = book.cows;
  expect(sheet!.story).toBeUndefined();
  expect([sheet!.overleaf.story, sheet!.onScreen.story].filter((one) => one !== undefined)).toHaveLength(1);
  if (sheet!.onScreen.story) expect(sheet!.back.shortened).toContain('her story');
  const html = await renderBook(book);
  for (const text of told) expect(html.split(text)).toHaveLength(2);
  expect(sheetOf(cow([gap('2026-05-26', 16)]), {}, told[0]).story).toBeDefined();
});

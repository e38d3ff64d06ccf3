import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { composeAnnex, renderAnnex } from '../../src/book/annex.js';
import { numbersInUse, sourceLines } from '../../src/book/numbers-table.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { CaseRecord, FarmRecord, Practice } from '../../src/record/practice.js';
import type { Visit } from '../../src/record/visit.js';
import { untold, wordsOf } from '../../src/reference/words.js';
import { anyTroubledPractice, today } from '../laws/any-trouble.js';
import { textOf } from '../laws/outputs-of-a-day.js';
import { farmWith, fullAnimal, fullFarm, fullPractice } from './full-practice.js';
import { htmlFindings, outlineFaults } from './html-findings.js';
import { expectedText, leaves } from './recorded-values.js';

const read = () => undefined;
const full = composeAnnex(fullPractice, fullFarm, '2026-03-10', { read });
const html = renderAnnex(full);

/** What is recorded at a visit and is not in her section, at that visit or among her pictures. */
function notThere(
  practice: Practice,
  farm: FarmRecord,
  day: string,
  visits: (one: CaseRecord) => readonly Visit[],
) {
  const page = composeAnnex(practice, farm, day, { read });
  const words = wordsOf(page.language);
  return farm.cases.flatMap((one) => {
    const hers = page.animals.find(({ id }) => id === `animal-${one.slug}`)!;
    expect(hers.log.visits).toHaveLength(one.animal.visits.length);
    return visits(one).flatMap((visit, at) => {
      const text = untold(textOf([hers.log.visits[at], hers.pictures]));
      return leaves(JSON.parse(JSON.stringify(visit)), `animal.visits[${at}]`, '', {}).flatMap((leaf) => {
        const said = expectedText(words, leaf);
        return said === undefined || text.includes(said) ? [] : [`${one.slug} ${leaf.path}: ${said}`];
      });
    });
  });
}

test('whatever happened to an animal, every word recorded of a visit is in her section at that visit', () => {
  fc.assert(
    fc.property(anyTroubledPractice, (practice) => {
      const [farm] = practice.farms;
      expect(notThere(practice, farm!, today, ({ animal }) => animal.visits)).toEqual([]);
    }),
    { numRuns: 60 },
  );
});

/** Every key of a visit at each of thirty visits, with texts and lengths of their own, and a story of many pages. */
const richest = fullAnimal.visits.toSorted((a, b) => JSON.stringify(b).length - JSON.stringify(a).length)[0]!;
const thirty = Array.from({ length: 30 }, (_, at): Visit => {
  const date = addDays('2026-01-20', at - 29);
  const { a, ...others } = richest.found!;
  return {
    ...richest,
    date,
    note: `Said at visit ${at}. ${'Dry above it, and no smell. '.repeat(40)}Ended visit ${at}.`,
    found: { a: { ...a!, top: 10 + at / 100, note: `gap at visit ${at}` }, ...others },
    photos: [
      { file: `photos/visit-${at}.jpg`, foot: 'LH', view: 'sole', when: 'after', caption: `as on ${at}` },
    ],
    vet: { asked: date, why: `asked at visit ${at}` },
  };
});
const story = Array.from({ length: 300 }, (_, at) => `Paragraph ${at} of a long story, which goes on.`);
const long: CaseRecord = {
  ...fullFarm.cases[0]!,
  animal: { ...fullAnimal, visits: thirty },
  narrative: story.join('\n\n'),
};

test('thirty visits with every key filled and a story of many pages are printed whole', () => {
  expect(notThere(fullPractice, farmWith([long]), '2026-03-10', () => thirty)).toEqual([]);
  const page = composeAnnex(fullPractice, farmWith([long]), '2026-03-10', { read });
  expect(page.animals[0]!.narrative!.html.match(/Paragraph \d+ of a long story, which goes on\./g)).toEqual(
    story,
  );
  // A word that nobody recorded is found missing.
  const others = thirty.map((visit, at) => ({ ...visit, note: `never said ${at}` }));
  expect(notThere(fullPractice, farmWith([long]), '2026-03-10', () => others)).toHaveLength(30);
});

test('pictures are listed by name with the hash of their file, and none is embedded', () => {
  const has = (file: string) => (file.endsWith('visit-4.jpg') ? Buffer.from('abc') : undefined);
  const page = composeAnnex(fullPractice, farmWith([long]), '2026-03-10', { read: has });
  const rows = page.animals[0]!.pictures!.table!.rows.map(({ cells }) => [cells[0]!.text, cells[3]!.text]);
  expect(rows).toHaveLength(30);
  expect(rows[3]).toEqual(['photos/visit-3.jpg', 'file missing from the case folder']);
  // The SHA-512 of `abc`, as FIPS 180-2 prints it.
  expect(rows[4]).toEqual([
    'photos/visit-4.jpg',
    'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
  ]);
  expect(renderAnnex(page)).not.toMatch(/<img|data:image/);
});

test('every number of the sums is in it with its source, and every source', () => {
  expect(full.last.numbers.table!.rows).toHaveLength(numbersInUse().length);
  expect(full.last.numbers.table!.rows.filter(({ cells }) => cells[2]!.text === '')).toEqual([]);
  expect(full.last.sources.items).toEqual(sourceLines());
});

test('of chosen cases it holds those alone, and no figures of the farm', () => {
  const other = { ...long, slug: '44', animal: { ...fullAnimal, animal: 'Zebedee' } };
  const farm = farmWith([...fullFarm.cases, other]);
  expect(textOf(composeAnnex(fullPractice, farm, '2026-03-10', { read }))).toContain('Zebedee');
  const chosen = composeAnnex(fullPractice, farm, '2026-03-10', { read, only: fullFarm.cases });
  expect(chosen.animals.map(({ number }) => number)).toEqual(['0312']);
  expect(chosen.last.corrections).toEqual(full.last.corrections);
  expect(full.farm.tables.map(({ id }) => id)).toContain('case-times');
  expect(chosen.farm.tables.map(({ id }) => id)).toEqual(['herd-periods', 'gait-rounds']);
  expect(textOf(chosen)).not.toMatch(/Zebedee|Paragraph 7 of/);
});

test('it is valid HTML with a whole outline, the same bytes each time, and asks nothing of the outside', async () => {
  expect(await htmlFindings(html)).toEqual([]);
  expect(outlineFaults(html)).toEqual([]);
  expect(
    await htmlFindings(renderAnnex(composeAnnex(fullPractice, farmWith([]), '2026-03-10', { read }))),
  ).toEqual([]);
  expect(renderAnnex(composeAnnex(fullPractice, fullFarm, '2026-03-10', { read }))).toBe(html);
  const ids = new Set([...html.matchAll(/\sid="([^"]*)"/g)].map((match) => `#${match[1]}`));
  const addresses = [...html.matchAll(/(?:href|src|srcset|action|poster|data)="([^"]*)"/g)].map(
    (match) => match[1]!,
  );
  expect(addresses.length).toBeGreaterThan(8);
  expect(addresses.filter((address) => !ids.has(address))).toEqual([]);
  expect(html).not.toMatch(/@import|<script|url\((?!#|data:font\/woff2;base64,)/);
});

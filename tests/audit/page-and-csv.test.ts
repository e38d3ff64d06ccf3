import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { auditFiles } from '../../src/audit/audit-files.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import { printedShare } from '../../src/herd/printed-figure.js';
import { wordsOf } from '../../src/reference/words.js';
import { dayInWords } from '../../src/words/day-and-place.js';
import { farmWith, fullFarm, fullPractice } from '../book/full-practice.js';
import { handWorkedFarm } from './hand-worked-farm.js';
import { packOf, rowsOf, textOf } from './read-pack.js';

const demo = fileURLToPath(new URL('../../cases', import.meta.url));
const today = '2026-06-16';
const period = { from: '2025-06-17', to: today };
const { practice } = readPractice(nodeCaseFiles, demo, { today });

function filesOf(of: Practice, farm: FarmRecord, span = period, day = today) {
  const { files } = auditFiles(farm, span, {
    business: of.business,
    today: day,
    priors: pooledOn(of, day).priors,
  });
  return files;
}

let packs: { name: string; farm: FarmRecord; files: Readonly<Record<string, string>> }[];
beforeAll(() => {
  packs = [
    ...practice.farms.map((farm) => ({ name: farm.slug, farm, files: filesOf(practice, farm) })),
    { name: 'every field', farm: fullFarm, files: filesOf(fullPractice, fullFarm, { from: '2025-01-01', to: '2026-12-31' }, '2026-03-10') }, // prettier-ignore
    { name: 'no animal', farm: farmWith([]), files: filesOf(fullPractice, farmWith([])) },
  ];
});

const tables = (files: Readonly<Record<string, string>>) =>
  Object.keys(files).flatMap((name) => (name.endsWith('.csv') ? [name.slice(0, -4)] : []));

/** The text of each row of a table of the page. */
function pageRows(html: string, table: string): string[] {
  const [, body = ''] = new RegExp(`<caption id="${table}-table-caption">[^]*?<tbody>([^]*?)</tbody>`).exec(html) ?? []; // prettier-ignore
  return [...body.matchAll(/<tr>([^]*?)<\/tr>/g)].map(([, row]) => textOf(row!));
}

/** What the page may say for a CSV cell: the text, a day in words, a word of a list in the reader's language. */
function saidOf(cell: string, language: 'en-GB' | 'en-US', lists: ReadonlyMap<string, string>): string[] {
  const words = wordsOf(language);
  const plain = cell.replace(/^'(?=[=+\-@])/, '');
  return [
    plain.replaceAll(/\s+/g, ' '),
    ...(/^\d{4}-\d\d-\d\d$/.test(cell) ? [dayInWords(words, cell)] : []),
    ...[lists.get(cell) ?? []].flat(),
  ];
}

test('page and CSV hold the same rows and the same values', () => {
  let compared = 0;
  for (const { name, farm, files } of packs) {
    const language = farm.farm.language ?? 'en-GB';
    // The dictionary says how the page words each word of a list.
    const lists = new Map(
      [...files['dictionary.txt']!.matchAll(/^ {4}(.+?)(?: = (.+))?\r$/gm)].map(([, word, said]) => [word!, said ?? word!]), // prettier-ignore
    );
    for (const table of tables(files)) {
      const rows = rowsOf({ files }, table);
      const shown = pageRows(files['audit.html']!, table);
      expect(shown, `${name} ${table}`).toHaveLength(rows.length);
      for (const [at, row] of rows.entries())
        for (const [column, cell] of Object.entries(row))
          for (const part of cell.split(' | ').filter((one) => one !== '')) {
            compared += 1;
            const said = saidOf(part, language, lists);
            expect(
              said.some((one) => shown[at]!.includes(one)),
              `${name} ${table} row ${at} ${column}: ${part} in ${shown[at]}`,
            ).toBe(true);
          }
    }
  }
  expect(compared).toBeGreaterThan(2000);
});

test('every share has what it is of, and its per cent only beside its bounds: on the page, in the CSV in the column after', () => {
  let [printed, bare] = [0, 0];
  for (const { name, files } of packs) {
    const text = textOf(files['audit.html']!);
    const all = [...text.matchAll(/%/g)].length;
    const shares = [
      ...text.matchAll(/(\d+) of (\d+) \((\d+)\s%\); 95\s% confidence interval (\d+) to (\d+)\s%/g),
    ];
    const medians = [...text.matchAll(/median [\d.]+ \(95\s%/g)].length;
    // What is left: the level of the interval, said once in the rules.
    expect(all - 3 * shares.length - medians, name).toBe(1);
    for (const [said, count, of, ...rest] of shares) {
      const [share, low, high] = rest.map(Number);
      expect(Math.round((100 * Number(count)) / Number(of)), said).toBe(share);
      expect(low).toBeLessThanOrEqual(share!);
      expect(high! - low!).toBeLessThanOrEqual(51);
    }
    printed += shares.length;
    for (const table of tables(files)) {
      const head = files[`${table}.csv`]!.replace(/^\ufeff/, '')
        .split('\r\n')[0]!
        .split(',');
      for (const [at, column] of head.entries())
        if (column.endsWith('_percent')) {
          const share = column.replace('_percent', '');
          expect(head.slice(at - 2, at)).toEqual([share, `${share}_of`]);
          for (const row of rowsOf({ files }, table)) {
            const { [share]: count = '', [`${share}_of`]: of = '', [column]: percent = '' } = row;
            expect([count === '', of === ''].filter(Boolean)).not.toHaveLength(1);
            // Rechecks of one run are one animal's: her counts stand alone, however many.
            const isHers = share === 'rechecks_kept';
            const figure = of === '' || isHers ? undefined : printedShare(Number(count), Number(of));
            expect(percent, `${table} ${column}`).toBe(figure ? `${Math.round(100 * figure.value)}` : '');
            bare += percent === '' && count !== '' ? 1 : 0;
            expect(Number(count), `${table} ${share}`).toBeLessThanOrEqual(Number(of));
          }
        }
    }
  }
  // Both are met: shares with their bounds, and counts that stand alone.
  expect(printed).toBeGreaterThan(10);
  expect(bare).toBeGreaterThan(10);
});

test('nothing of another farm is in a pack', () => {
  const namesOf = ({ slug, farm, cases }: FarmRecord) => [
    slug,
    farm.farm,
    ...[farm.holding, farm.contact?.name, farm.contact?.email].flatMap((one) => one ?? []),
    ...cases.flatMap(({ animal }) => [animal.tag, animal.electronic].flatMap((one) => one ?? [])),
  ];
  let looked = 0;
  for (const { farm, files } of packs.slice(0, 3))
    for (const other of practice.farms.filter((one) => one !== farm))
      // A cow that moved bears her tag on both farms.
      for (const name of namesOf(other).filter((one) => !namesOf(farm).includes(one)))
        for (const [file, text] of Object.entries(files)) {
          looked += 1;
          expect(text.includes(name), `${file} of ${farm.slug} names ${name}`).toBe(false);
        }
  expect(looked).toBeGreaterThan(500);
  // And her own former farm is not named either: 0312 came from harrowmere.
  expect(Object.values(packs[3]!.files).some((text) => text.includes('harrowmere'))).toBe(false);
});

test('every column has its line in the dictionary, and every CSV file its own', () => {
  for (const { files } of packs) {
    const lines = files['dictionary.txt']!.split('\r\n');
    for (const table of tables(files)) {
      const from = lines.findIndex((line) => line.startsWith(`${table}.csv (`));
      expect(from, table).toBeGreaterThan(0);
      const own = lines.slice(from + 1, lines.indexOf('', from)).join('\n');
      const head = files[`${table}.csv`]!.replace(/^\ufeff/, '')
        .split('\r\n')[0]!
        .split(',');
      for (const column of head.map((name) => name.replace(/_(of|percent)$/, '')))
        expect(own, `${table}.${column}`).toContain(`  ${column}: `);
    }
  }
});

test('the same input gives the same bytes', () => {
  const [farm] = practice.farms.filter(({ slug }) => slug === 'quernholt');
  const again = filesOf(practice, farm!);
  expect(again).toEqual(packs.find(({ name }) => name === 'quernholt')!.files);
});

describe('what somebody wrote cannot run', () => {
  const nasty = '<script>alert(1)</script>';
  const files = packOf(
    {
      ...handWorkedFarm,
      'cases/oddfold/109.md': `---
casefile: 1
animal: "109"
lesions: {}
episodes: [ { lame-since: 2026-01-04, told-by: "=1+2" } ]
visits:
  - { date: 2026-01-05, by: "${nasty}", kind: first, gait: 2, products: [ { product: "@SUM(A1)", batch: "-2+3", amount: "+44" } ] }
---
`,
    },
    'oddfold',
    '2026',
    '2026-05-01',
  ).files;

  test('on the page it is text', () => {
    expect(files['audit.html']).not.toContain('<script');
    expect(textOf(files['audit.html']!)).toContain(nasty);
    expect(files['audit.html']).toContain('content="default-src &#39;none&#39;;');
  });

  test('in a spreadsheet it is text', () => {
    for (const [name, text] of Object.entries(files).filter(([file]) => file.endsWith('.csv')))
      expect(text, name).not.toMatch(/(?:^|,)"?[=+@-]/m);
    expect(files['medicines.csv']).toContain("'@SUM(A1)");
  });
});

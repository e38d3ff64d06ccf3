import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const business = `---
business: Quillfen Foot Trimming
trimmer: Orla Venn
prices: { currency: GBP, visit: 45, block: 14.50, milk-litre: 0.38 }
---
`;
const cow = (number: string) => `---
casefile: 1
animal: "${number}"
tag: UK 000123 40${number}
calvings: [2025-10-01]
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - date: 2025-12-09
    by: Orla Venn
    kind: first
    found: { a: { state: open, top: 12, wall: 42, tool: ruler } }
    blocks: [ { foot: LH, claw: inner, event: fitted, material: wood } ]
    products: [ { product: "=paste, as on the label", class: not sure, milk-days: 0, meat-days: 0, cost: 2.40 } ]
  - date: 2026-03-03
    by: Orla Venn
    kind: recheck
    found: { a: { state: open, top: 24, wall: 42, tool: ruler } }
    recheck: 2026-03-31
  - date: 2026-03-05
    by: Nan
    kind: report
    products: [ { product: "injection", class: medicine, milk-days: 3, meat-days: 10, given-by: P. Wexmarrow, cost: 20 } ]
---
`;
const files = {
  'cases/business.md': business,
  'cases/quernholt/farm.md': farmFile.replace('farm: Quernholt', 'farm: Quernholt\nmilk-litres: 29'),
  'cases/quernholt/2086.md': cow('2086'),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/503.md': animalFile('503'),
};

test('costs: a table a farm, each sum added up by hand', async () => {
  const run = await folderWith(files).growdown('costs', '--farm', 'quernholt');
  expect(run).toMatchObject({ code: 0, err: '' });
  const rows = run.out.split('\n').map((line) => line.trim().split(/ {2,}/));
  expect(rows[0]).toEqual(['Quernholt']);
  expect(rows[1]).toEqual(['animal', 'since', 'visits', 'blocks', 'wraps', 'products', 'milk days', 'GBP']);
  // 2 × 45 + 14.50 + 2.40 + 20 + 3 days × 29 × 0.38 = 33.06: 159.96
  expect(rows[2]).toEqual(['2086', '2025-12-09', '2', '1', '-', '2', '3', '159.96']);
  // 2025: 45 + 14.50 + 2.40. 2026: 45 + 20 + 33.06.
  expect(rows[4]).toEqual(['2025', '1', '1', '-', '1', '-', '61.90']);
  expect(rows[5]).toEqual(['2026', '1', '-', '-', '1', '3', '98.06']);
  expect(run.out).toContain('to finish  a visit every');
  expect(run.out).toContain('80 % range');
  expect(run.out).not.toContain('Harrowmere');
});

test('costs --period: only its days; --json the same for a program', async () => {
  const { growdown } = folderWith(files);
  const run = await growdown('costs', '--farm', 'quernholt', '--period', '2026-03-01..2026-03-06', '--json');
  const { costs } = JSON.parse(run.out) as { costs: { total: { total: string; lines: unknown[] } }[] };
  // A visit, the injection, and of its three days the 6th alone: 45 + 20 + 11.02.
  expect(costs[0]!.total).toEqual({
    lines: [
      { what: 'visit', count: 1, price: 45, sum: '45.00' },
      { what: 'product', count: 1, sum: '20.00' },
      { what: 'milk', count: 1, price: 0.38, litres: 29, sum: '11.02' },
    ],
    total: '76.02',
    notInSum: [],
  });
  expect((await growdown('costs', '--period', '2026-13')).code).toBe(2);
});

test('costs --csv: a file a farm for a bill, read by another program; work by others is left out and said', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('costs', '--csv');
  expect(run.code).toBe(0);
  expect(run.err).toBe(
    'quernholt: 1 piece of work by P. Wexmarrow left out: not the trimmer of business.md, nor among its people\n',
  );
  const text = readFileSync(join(folder, 'books', 'quernholt-work.csv'), 'utf8');
  expect(text.startsWith('\ufeffdate,animal,tag,what,detail,foot,by,quantity,price,sum,currency\r\n')).toBe(
    true,
  );
  const { data, errors } = Papa.parse<string[]>(text.slice(1), { skipEmptyLines: true });
  expect(errors).toEqual([]);
  const tag = 'UK 000123 402086';
  expect(data.slice(1)).toEqual([
    ['2025-12-09', '2086', tag, 'visit', 'first visit', '', 'Orla Venn', '1', '45.00', '45.00', 'GBP'],
    [
      '2025-12-09',
      '2086',
      tag,
      'block',
      'wood',
      'left hind, inner claw',
      'Orla Venn',
      '1',
      '14.50',
      '14.50',
      'GBP',
    ],
    // An apostrophe keeps a spreadsheet from running it.
    [
      '2025-12-09',
      '2086',
      tag,
      'product',
      "'=paste, as on the label",
      '',
      'Orla Venn',
      '1',
      '2.40',
      '2.40',
      'GBP',
    ],
    ['2026-03-03', '2086', tag, 'visit', 'recheck', '', 'Orla Venn', '1', '45.00', '45.00', 'GBP'],
  ]);
  expect(readFileSync(join(folder, 'books', 'harrowmere-work.csv'), 'utf8')).not.toContain('2086');
});

test('costs --csv --period: named after the time, the same bytes twice; no work, no file', async () => {
  const { folder, growdown } = folderWith(files);
  const march = await growdown(
    'costs',
    '--csv',
    '--farm',
    'quernholt',
    '--period',
    '2026-03',
    '--out',
    'bills',
  );
  const file = join(folder, 'bills', 'quernholt-work-2026-03.csv');
  expect(march.out).toBe(`${join('bills', 'quernholt-work-2026-03.csv')}  1 piece of work\n`);
  const first = readFileSync(file, 'utf8');
  await growdown('costs', '--csv', '--farm', 'quernholt', '--period', '2026-03', '--out', 'bills');
  expect(readFileSync(file, 'utf8')).toBe(first);
  const none = await growdown('costs', '--csv', '--period', '2020', '--farm', 'quernholt');
  expect(none.out).toBe('quernholt: no work in this time, so there is no file\n');
  expect(existsSync(join(folder, 'books'))).toBe(false);
});

test('without prices the work is listed without a column of money, and the table says what to write', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'cases/business.md': business.replace(/^prices.*\n/m, ''),
  });
  await growdown('costs', '--csv', '--farm', 'quernholt');
  const [heads, first] = readFileSync(join(folder, 'books', 'quernholt-work.csv'), 'utf8').split('\r\n');
  expect(heads).toBe('\ufeffdate,animal,tag,what,detail,foot,by,quantity');
  expect(first).toBe('2025-12-09,2086,UK 000123 402086,visit,first visit,,Orla Venn,1');
  const run = await growdown('costs');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toMatch(/^business\.md gives no prices.*`prices: \{ currency: GBP, visit: 45/);
});

test('a farm with an error gives nothing, the other all; an unknown farm is reported', async () => {
  const { growdown } = folderWith({
    ...files,
    'cases/harrowmere/503.md': animalFile('503').replace('state: open', 'state: opne'),
  });
  const run = await growdown('costs');
  expect(run.code).toBe(1);
  expect(run.err).toContain('harrowmere: nothing of it, because of the errors above');
  expect(run.out).toContain('Quernholt');
  expect((await growdown('costs', '--farm', 'quernhlt')).code).toBe(2);
});

test('where nothing has a price a program is told of no total, and not of zero', async () => {
  const { growdown } = folderWith({
    'cases/business.md': business.replace(/prices: .*/, 'prices: { currency: GBP }'),
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': animalFile('2086'),
  });
  const { out } = await growdown('costs', '--json', '--today', '2026-06-16');
  const [farm] = (JSON.parse(out) as { costs: { animals: object[] }[] }).costs;
  expect(farm!.animals).toMatchObject([
    { animal: '2086', lines: [], total: null, notInSum: [{ what: 'visit' }] },
  ]);
});

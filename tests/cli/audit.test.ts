import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const files = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };

test('a pack is a folder of farm and period with a page, its tables and their dictionary; a second run gives the same bytes', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('audit', '--period', '2026');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toBe(
    `${join('audits', 'quernholt-2026', 'audit.html')} and 15 more files: 1 lameness episode, 1 visit; gaps: 3 serious, 5 worth closing, 0 minor\n`,
  );
  const pack = join(folder, 'audits', 'quernholt-2026');
  const read = () => readdirSync(pack).map((name) => [name, readFileSync(join(pack, name), 'utf8')]);
  const before = read();
  expect(before.map(([name]) => name)).toEqual([
    'amendments.csv',
    'annex.html',
    'audit.html',
    'dictionary.txt',
    'gait-rounds.csv',
    'gaps.csv',
    'lame-animals.csv',
    'medicines.csv',
    'people.csv',
    'plan.csv',
    'rechecks.csv',
    'referrals.csv',
    'summary.csv',
    'visits.csv',
    'witness.csv',
    'written-late.csv',
  ]);
  await growdown('audit', '--period', '2026-01-01..2026-12-31', '--farm', 'quernholt');
  expect(read()).toEqual(before);
});

test('the annex in a pack has every record whole, and nothing of what the business charges', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'cases/business.md': '---\nbusiness: Venn\nprices: { currency: GBP, visit: 47.15 }\n---\n',
  });
  expect((await growdown('books', '--annex')).code).toBe(0);
  expect(readFileSync(join(folder, 'books', 'quernholt-annex.html'), 'utf8')).toContain('47.15');
  expect((await growdown('audit', '--period', '2027-01-01..2027-01-02', '--today', '2027-01-01')).code).toBe(
    0,
  );
  const annex = readFileSync(join(folder, 'audits/quernholt-2027-01-01--2027-01-02/annex.html'), 'utf8');
  expect(annex).toMatch(/id="animal-2086"[^]*6 January 2026[^]*Invented for a test\./);
  expect(annex).not.toMatch(/47\.15|GBP/);
});

test('without a period it is the twelve months up to today; --out and --json', async () => {
  const { folder, growdown } = folderWith(files);
  const { code, out } = await growdown('audit', '--json', '--out', 'packs');
  expect(code).toBe(0);
  expect(JSON.parse(out)).toMatchObject({
    period: { from: '2025-06-17', to: '2026-06-16' },
    packs: [{ farm: 'quernholt', runs: 1, visits: 1, gaps: { serious: 3 } }],
    refused: [],
  });
  expect(existsSync(join(folder, 'packs', 'quernholt-2025-06-17--2026-06-16', 'audit.html'))).toBe(true);
});

test('a period that is none, or has not begun, is refused and nothing is written', async () => {
  const { folder, growdown } = folderWith(files);
  const wrong = await growdown('audit', '--period', '2026-13');
  expect(wrong.code).toBe(2);
  expect(wrong.err).toContain(
    '`2026-13` is not a year, month or day that exists: expected a year, a month, a day',
  );
  const future = await growdown('audit', '--period', '2027');
  expect(future.code).toBe(2);
  expect(future.err).toContain('--period begins on 2027-01-01, after today (2026-06-16)');
  expect(existsSync(join(folder, 'audits'))).toBe(false);
});

test('a farm with an error gets no pack, the others get theirs', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'cases/harrowmere/farm.md': '---\nfarm: Harrowmere\ncows: 4\n---\n',
    'cases/harrowmere/1.md': animalFile('1'),
  });
  const run = await growdown('audit', '--period', '2026');
  expect(run.code).toBe(1);
  expect(run.err).toContain('harrowmere: no audit pack, because of the errors above');
  expect(readdirSync(join(folder, 'audits'))).toEqual(['quernholt-2026']);
});

test('sealed by the program, the pack says how far the ledger goes', async () => {
  const { folder, growdown } = folderWith(files);
  expect((await growdown('seal')).code).toBe(0);
  await growdown('audit', '--period', '2026');
  const page = readFileSync(join(folder, 'audits', 'quernholt-2026', 'audit.html'), 'utf8');
  expect(page).toMatch(/The ledger holds \d+ entries and ends with [0-9a-f]{4} /);
  expect(page).not.toContain('Nothing is sealed');
});

test('what was taken back after it was sealed is among the corrections', async () => {
  const { folder, growdown } = folderWith(files);
  const visit = ['visit', 'quernholt/2086', '--date', '2026-06-10', '--by', 'Orla Venn', '--gait', '1'];
  expect((await growdown(...visit)).code).toBe(0);
  expect((await growdown('undo', 'quernholt')).code).toBe(0);
  await growdown('audit', '--period', '2026-01-01..2026-12-31');
  const pack = join(folder, 'audits', 'quernholt-2026');
  expect(readFileSync(join(pack, 'amendments.csv'), 'utf8')).toContain('removed: visit of 10 June 2026');
  expect(readFileSync(join(pack, 'audit.html'), 'utf8')).toContain('removed: visit of 10 June 2026');
});

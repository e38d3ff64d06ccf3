import { mkdirSync, readFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const farms = {
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': animalFile('2086'),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/11.md': animalFile('11'),
};
const recheck = (cow: string) => ['visit', cow, '--date', '2026-02-03', '--by', 'Orla Venn', '--gait', '1'];

test('a ledger of 200,000 lines of junk is that farm’s problem, reported in few lines, and no other’s', async () => {
  const { growdown, put, folder } = folderWith(farms);
  put('cases/quernholt/.growdown/ledger.jsonl', 'junk\n'.repeat(200_000));
  const check = await growdown('check');
  expect(check.code).toBe(1);
  expect(check.err.split('\n').length).toBeLessThan(200);
  expect(check.err).toContain('ledger.jsonl:51:1');
  const books = await growdown('books');
  expect(books).toMatchObject({ code: 1, out: expect.stringContaining('harrowmere.html') });
  expect(await growdown(...recheck('harrowmere/11'))).toMatchObject({ code: 0 });
  expect(await growdown(...recheck('quernholt/2086'))).toMatchObject({ code: 1 });
  expect(readFileSync(join(folder, 'cases/quernholt/2086.md'), 'utf8')).toBe(animalFile('2086'));
});

test('a list of 130,000 rows is read and reported row by row, all of one cow too', async () => {
  const { growdown, put } = folderWith(farms);
  const row = (at: number) => `${at};Holstein\n`;
  put('herd.csv', `animal;breed\n${Array.from({ length: 130_000 }, (_, at) => row(at + 1)).join('')}`);
  const map = ['--map', 'animal=animal', '--map', 'breed=breed'];
  const done = await growdown('import', 'herd.csv', '--farm', 'quernholt', ...map);
  expect(done.code, done.err.slice(0, 500)).toBe(0);
  expect(done.out).toContain('129999 without a case here');
  put('herd.csv', `animal;breed\n${row(2086).repeat(130_000)}`);
  const same = await growdown('import', 'herd.csv', '--farm', 'quernholt', ...map);
  expect(same.code).toBe(1);
  expect(same.err).toContain('expected one row an animal');
}, 60_000);

test.each([
  ['books', ['books'], 'books/harrowmere.html'],
  ['audit', ['audit'], 'audits/harrowmere-2025-06-17--2026-06-16/audit.html'],
  ['round', ['round', '--ics'], 'books/harrowmere.ics'],
])('%s: what cannot be written of one farm is said, and the other is written', async (_, words, other) => {
  const { growdown, folder } = folderWith(farms);
  for (const place of [
    'books/quernholt.html',
    'books/quernholt.ics',
    'audits/quernholt-2025-06-17--2026-06-16/audit.html',
  ])
    mkdirSync(join(folder, place), { recursive: true });
  const done = await growdown(...words);
  expect(done.err).toMatch(/quernholt: .*could not be written \(E/);
  expect(done.err).not.toContain('a fault in this program');
  expect(done.code).toBe(2);
  expect(existsSync(join(folder, other)), other).toBe(true);
});

test('a folder that cannot be written is said in a line, by a command that has no words of its own for it', async () => {
  const refuse = () => {
    throw Object.assign(new Error('closed'), { code: 'EACCES', path: '/cases', syscall: 'mkdir' });
  };
  const { growdown } = folderWith({});
  const { growdown: refused } = folderWith({}, { files: { look: refuse, list: refuse, read: refuse, readStart: refuse, realPath: refuse } }); // prettier-ignore
  expect(await growdown('farm', 'alderfold')).toMatchObject({ code: 0 });
  const done = await refused('farm', 'alderfold');
  expect(done).toMatchObject({ code: 2, err: expect.stringContaining('the disk refuses /cases (EACCES)') });
});

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from '../cli/run-in-folder.js';
import { browserProgram } from '../browser/find-browser.js';
import { readPdf } from './read-pdf.js';

const sound = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };
const program = await browserProgram();
const browser = () => ({ path: program });

test('one PDF a farm with its pages counted; a farm with an error keeps the PDF it has', async () => {
  const { folder, growdown } = folderWith(
    {
      ...sound,
      'cases/harrowmere/farm.md': farmFile
        .replace('Quernholt', 'Harrowmere')
        .replace('---\n', '---\npaper: Letter\n'),
      'cases/harrowmere/31.md': animalFile('31'),
      'cases/oddmere/farm.md': farmFile.replace('Quernholt', 'Oddmere'),
      'cases/oddmere/7.md': animalFile('7').replace('state: open', 'state: opne'),
      'books/oddmere.pdf': 'the old one',
    },
    { browser, terminalWidth: 80 },
  );
  const run = await growdown('pdf');
  expect(run.code).toBe(1);
  const said = [...run.out.matchAll(/^(\S+)  (\w+: 1 animal, 1 visit), (\d+) pages of (\w+)$/gm)];
  expect(said.map(([, file, counted, , paper]) => [file, counted, paper])).toEqual([
    [join('books', 'harrowmere.pdf'), 'Harrowmere: 1 animal, 1 visit', 'Letter'],
    [join('books', 'quernholt.pdf'), 'Quernholt: 1 animal, 1 visit', 'A4'],
  ]);
  for (const [, file, , pages] of said) {
    const { sheets, outline } = await readPdf(readFileSync(join(folder, file!)));
    expect(sheets).toHaveLength(Number(pages));
    expect(outline.length).toBeGreaterThan(5);
  }
  expect(run.err).toContain('oddmere: no new PDF');
  expect(run.err).toContain('Quernholt, printing');
  expect(readFileSync(join(folder, 'books/oddmere.pdf'), 'utf8')).toBe('the old one');
}, 60_000);

test('--json says it for a program, --farm and --out are heeded, and a second run prints the same', async () => {
  const { folder, growdown } = folderWith(sound, { browser });
  const words = ['pdf', '--farm', 'quernholt', '--out', 'elsewhere', '--json', '--open-only'];
  const { pdfs } = JSON.parse((await growdown(...words)).out) as { pdfs: { pages: number; bytes: number }[] };
  const first = readFileSync(join(folder, 'elsewhere/quernholt.pdf'));
  expect(pdfs).toMatchObject([
    { farm: 'quernholt', animals: 1, paper: 'A4', openOnly: true, bytes: first.length },
  ]);
  expect(pdfs[0]!.pages).toBe((await readPdf(first)).sheets.length);
  await growdown(...words);
  // Not the same bytes: now and then a browser writes the parts of a file in another order.
  expect(await readPdf(readFileSync(join(folder, 'elsewhere/quernholt.pdf')))).toEqual(await readPdf(first));
}, 60_000);

test('without a browser it says what to install, and writes nothing', async () => {
  const { folder, growdown } = folderWith(sound);
  const run = await growdown('pdf');
  expect(run).toMatchObject({ code: 2, out: '' });
  expect(run.err).toMatch(/no browser[^]*apt install chromium[^]*CHROMIUM_PATH[^]*growdown books/);
  expect(existsSync(join(folder, 'books'))).toBe(false);
});

test('a wrong CHROMIUM_PATH is named', async () => {
  const run = await folderWith(sound, {
    browser: () => ({ missing: 'not-at-named-path', named: '/opt/gone' }),
  }).growdown('pdf');
  expect(run.code).toBe(2);
  expect(run.err).toContain('CHROMIUM_PATH names /opt/gone');
});

test.skipIf(process.platform === 'win32')(
  'a browser that does not start is named, with a way out',
  async () => {
    const { folder, put, growdown } = folderWith(sound, {
      browser: () => ({ path: join(folder, 'broken') }),
    });
    put('books/quernholt.pdf', 'the old one');
    writeFileSync(join(folder, 'broken'), '#!/bin/sh\nexit 9\n', { mode: 0o755 });
    const run = await growdown('pdf');
    expect(run.code).toBe(2);
    expect(run.err).toMatch(/broken does not start[^]*CHROMIUM_PATH/);
    expect(readFileSync(join(folder, 'books/quernholt.pdf'), 'utf8')).toBe('the old one');
  },
);

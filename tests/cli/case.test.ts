import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { namedCase } from '../../src/run/find-case.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const tagged = (number: string, tag: string) =>
  animalFile(number).replace(
    'calvings:',
    `tag: ${tag}\nelectronic: "999000000${number.padStart(6, '0')}"\ncalvings:`,
  );
const closed = animalFile('31').replace(
  'lesions:',
  'episodes: [ { lame-since: 2026-01-02, ended: 2026-03-01, result: sold } ]\nlesions:',
);
const files = {
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': tagged('2086', 'UK 000123 402086'),
  'cases/quernholt/2117.md': animalFile('2117'),
  'cases/quernholt/old-cow.md': closed,
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/503.md': animalFile('503'),
};
const written = (folder: string, file = 'quernholt/2086.html') =>
  readFileSync(join(folder, 'books', file), 'utf8');

test('case: one animal’s page in a file of its own, said on standard output', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('case', 'quernholt/2086');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toBe(`${join('books', 'quernholt', '2086.html')}  Quernholt: 2086\n`);
  const page = written(folder);
  expect(page.match(/<h1>(.*?)<\/h1>/)?.[1]).toBe('<bdi>Quernholt</bdi>');
  expect(page.match(/<article/g)).toHaveLength(1);
  for (const said of ['UK 000123 402086', '16 June 2026', 'Every visit', 'How to read this page', 'Tranter'])
    expect(page).toContain(said);
  expect(page).not.toContain('2117');
});

test('case: the page is as inert as a book and every link in it leads somewhere', async () => {
  const { folder, growdown } = folderWith(files);
  await growdown('case', 'quernholt/2086');
  const page = written(folder);
  expect(page).toMatch(/default-src &#39;none&#39;; font-src data:; style-src &#39;sha256-/);
  expect(page).not.toMatch(/<script|<link|https?:\/\/(?!www\.w3\.org)/);
  const ids = new Set([...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
  const links = [...page.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
  expect(links.length).toBeGreaterThan(0);
  expect(links.filter((id) => !ids.has(id))).toEqual([]);
});

test('case: her dates are those of the farm’s book, which all cows teach', async () => {
  const { folder, growdown } = folderWith(files);
  await growdown('books', '--farm', 'quernholt');
  await growdown('case', 'quernholt/2086');
  const out = /likely about [^.]*\./;
  const book = written(folder, 'quernholt.html');
  const hers = book.slice(book.indexOf('id="animal-2086"'));
  expect(written(folder).match(out)?.[0]).toBe(hers.match(out)![0]);
});

test.each([
  'quernholt/2086',
  'quernholt\\2086',
  'quernholt\\2086.md',
  'cases/quernholt/2086.md',
  'C:\\trim\\cases\\quernholt\\2086.md',
  'quernholt/UK 000123 402086',
  'quernholt/uk000123402086',
  'quernholt/999000000002086',
  '2086',
])('case: she is found as %s', async (named) => {
  const { folder, growdown } = folderWith(files);
  expect(await growdown('case', named)).toMatchObject({ code: 0, err: '' });
  expect(written(folder)).toContain('402086');
});

test('case: a closed case by the name of her file, says that it is closed, its headings in order', async () => {
  const { folder, growdown } = folderWith(files);
  expect((await growdown('case', 'quernholt/old-cow')).code).toBe(0);
  const page = written(folder, 'quernholt/old-cow.html');
  expect(page).toMatch(/class="cow-stands">Closed: /);
  const levels = [...page.matchAll(/<h([1-6])/g)].map(([, level]) => Number(level));
  expect(levels.filter((level, at) => at > 0 && level > levels[at - 1]! + 1)).toEqual([]);
});

test.each([
  [
    'an unknown animal, with the nearest',
    ['quernholt/2806'],
    /no animal `2806`.*did you mean `quernholt\/2086`/,
  ],
  [
    'an unknown animal with none near',
    ['quernholt/x'],
    /no animal `x`.*there are 3, such as `quernholt\/2086`/,
  ],
  [
    'a tag with a slip',
    ['quernholt/UK 000123 402087'],
    /did you mean `quernholt\/2086` \(UK 000123 402086\)/,
  ],
  ['an unknown farm', ['quernhlt/2086'], /no farm `quernhlt`.*did you mean `quernholt`/],
  [
    'two farms at once',
    ['quernholt/2086', '--farm', 'harrowmere'],
    /names another farm than --farm harrowmere/,
  ],
  ['nothing', [], /missing required argument/],
])('case, wrong use: %s', async (_, words, said) => {
  const run = await folderWith(files).growdown('case', ...words);
  expect(run.code).toBe(2);
  expect(run.err).toMatch(said);
});

test('case: a number that two cows bore in turn is the one whose file it names, and the other is said', async () => {
  const { growdown } = folderWith({ ...files, 'cases/quernholt/31.md': animalFile('31') });
  const run = await growdown('case', 'quernholt/31');
  expect(run.code).toBe(0);
  expect(run.err).toContain('others have this number too: quernholt/old-cow');
  const two = folderWith({ ...files, 'cases/harrowmere/b.md': animalFile('2117') });
  expect(await two.growdown('case', 'harrowmere/2117')).toMatchObject({ code: 0 });
  const both = await folderWith({ ...files, 'cases/harrowmere/2086.md': animalFile('2086') }).growdown(
    'case',
    '2086',
  );
  expect(both.code).toBe(2);
  expect(both.err).toMatch(/more than one animal: name one of `harrowmere\/2086`, `quernholt\/2086`/);
});

test('case: --out puts it elsewhere, --json says it for a program', async () => {
  const { folder, growdown } = folderWith(files);
  const run = await growdown('case', 'quernholt/2086', '--out', 'elsewhere', '--json');
  const said = JSON.parse(run.out);
  expect(said).toMatchObject({
    farm: 'quernholt',
    animal: '2086',
    file: join('elsewhere', 'quernholt', '2086.html'),
  });
  expect(readFileSync(join(folder, 'elsewhere/quernholt/2086.html')).byteLength).toBe(said.bytes);
});

test('case: with an error on her farm no page is written, and one on another farm is not in the way', async () => {
  const bad = animalFile('2117').replace('state: open', 'state: opne');
  const here = await folderWith({ ...files, 'cases/quernholt/2117.md': bad }).growdown(
    'case',
    'quernholt/2086',
  );
  expect(here.code).toBe(1);
  expect(here.err).toMatch(/2117\.md:\d+:\d+: error [^]*quernholt: no page/);
  const there = await folderWith({ ...files, 'cases/harrowmere/503.md': bad }).growdown(
    'case',
    'quernholt/2086',
  );
  expect(there.code).toBe(0);
});

test('the farm and the animal out of what was typed', () => {
  expect(namedCase('quernholt/2086')).toEqual({ farm: 'quernholt', animal: '2086' });
  expect(namedCase('./cases/quernholt/2086.md')).toEqual({ farm: 'quernholt', animal: '2086' });
  expect(namedCase(' 2086 ')).toEqual({ animal: '2086' });
});

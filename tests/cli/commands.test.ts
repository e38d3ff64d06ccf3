import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { wordsOf } from '../../src/reference/words.js';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const sound = { 'cases/quernholt/farm.md': farmFile, 'cases/quernholt/2086.md': animalFile('2086') };

test('books: one file a farm, said on standard output', async () => {
  const { folder, growdown } = folderWith(sound);
  const run = await growdown('books');
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toBe(`${join('books', 'quernholt.html')}  Quernholt: 1 animal, 1 visit\n`);
  expect(readFileSync(join(folder, 'books/quernholt.html'), 'utf8')).toMatch(/^<!doctype html>/i);
});

test('books: a second run writes the same bytes', async () => {
  const { folder, growdown } = folderWith(sound);
  await growdown('books');
  const first = readFileSync(join(folder, 'books/quernholt.html'));
  await growdown('books');
  expect(readFileSync(join(folder, 'books/quernholt.html')).equals(first)).toBe(true);
});

test('books: a farm with an error keeps the book it has, the others get theirs', async () => {
  const { folder, growdown, put } = folderWith({
    ...sound,
    'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
    'cases/harrowmere/31.md': animalFile('31'),
  });
  expect((await growdown('books')).code).toBe(0);
  const before = readFileSync(join(folder, 'books/harrowmere.html'));
  put('cases/harrowmere/31.md', animalFile('31').replace('state: open', 'state: opne'));
  const quernholt = join(folder, 'books/quernholt.html');
  writeFileSync(quernholt, 'old');

  const run = await growdown('books');
  expect(run.code).toBe(1);
  expect(run.err).toMatch(/cases\/harrowmere\/31\.md:13:\d+: error /);
  expect(run.err).toContain('harrowmere: no new book');
  expect(readFileSync(join(folder, 'books/harrowmere.html')).equals(before)).toBe(true);
  expect(readFileSync(quernholt, 'utf8')).not.toBe('old');
});

test('books: --farm builds one, --out puts it elsewhere, --json says it for a program', async () => {
  const { folder, growdown } = folderWith({
    ...sound,
    'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
    'cases/harrowmere/31.md': animalFile('31'),
  });
  const run = await growdown('books', '--farm', 'harrowmere', '--out', 'elsewhere', '--json');
  expect(JSON.parse(run.out).books).toMatchObject([{ farm: 'harrowmere', animals: 1 }]);
  expect(existsSync(join(folder, 'elsewhere/harrowmere.html'))).toBe(true);
  expect(existsSync(join(folder, 'elsewhere/quernholt.html'))).toBe(false);
});

test('books: --annex writes the annex beside the book and says so, the same bytes each time; without it nothing else is written', async () => {
  const { folder, growdown } = folderWith(sound);
  await growdown('books');
  expect(readdirSync(join(folder, 'books'))).toEqual(['quernholt.html']);
  const book = readFileSync(join(folder, 'books/quernholt.html'));
  const run = await growdown('books', '--annex');
  expect(run).toMatchObject({ code: 0, err: '' });
  const annex = join('books', 'quernholt-annex.html');
  expect(run.out).toBe(
    `${join('books', 'quernholt.html')}  Quernholt: 1 animal, 1 visit\n${annex}  Quernholt: annex\n`,
  );
  expect(readdirSync(join(folder, 'books'))).toEqual(['quernholt-annex.html', 'quernholt.html']);
  expect(readFileSync(join(folder, 'books/quernholt.html')).equals(book)).toBe(true);
  const first = readFileSync(join(folder, annex));
  expect(first.toString()).toContain('Invented for a test.');
  const { books } = JSON.parse((await growdown('books', '--annex', '--open-only', '--json')).out);
  expect(books).toMatchObject([{ farm: 'quernholt', annex }]);
  expect(readFileSync(join(folder, annex)).equals(first)).toBe(true);
  expect(JSON.parse((await growdown('books', '--json')).out).books[0]).not.toHaveProperty('annex');
});

test('books: a farm with an error keeps the annex it has', async () => {
  const { folder, growdown, put } = folderWith(sound);
  await growdown('books', '--annex');
  const before = readFileSync(join(folder, 'books/quernholt-annex.html'));
  put('cases/quernholt/2086.md', animalFile('2086').replace('state: open', 'state: opne'));
  expect((await growdown('books', '--annex')).code).toBe(1);
  expect(readFileSync(join(folder, 'books/quernholt-annex.html')).equals(before)).toBe(true);
});

test('books: a place that cannot be written is wrong use, with a way out', async () => {
  const { folder, growdown } = folderWith(sound);
  mkdirSync(join(folder, 'books/quernholt.html/in-the-way'), { recursive: true });
  const run = await growdown('books');
  expect(run.code).toBe(2);
  expect(run.err).toMatch(/quernholt\.html could not be written \(EISDIR\).*a folder of that name.*--out/);
});

test('books: --out that is a file is said to be one, and the file is kept', async () => {
  const { folder, growdown } = folderWith({ ...sound, afile: 'mine' });
  for (const out of ['afile', 'afile/sub']) {
    const run = await growdown('books', '--out', out);
    expect(run.code).toBe(2);
    expect(run.err).toContain('a file is in the way of a folder');
  }
  expect(readFileSync(join(folder, 'afile'), 'utf8')).toBe('mine');
});

test.each([
  ['a day that does not exist', ['check', '--today', '2026-02-30'], /2026-02-30/],
  ['a farm that is not there', ['check', '--farm', 'elsewhere'], /no farm `elsewhere`[^]*quernholt/],
  ['a farm name with a path in it', ['check', '--farm', '../x'], /no farm `..\/x`/],
  ['a farm in capitals', ['check', '--farm', 'Quernholt'], /did you mean `quernholt`/],
  ['an unknown command', ['bokos'], /books/],
  ['an unknown option', ['check', '--cafes', 'x'], /--cases/],
  ['an annex where there is none', ['pdf', '--annex'], /unknown option '--annex'/],
  ['no command at all', [], /Usage/],
])('wrong use: %s', async (_, words, said) => {
  const run = await folderWith(sound).growdown(...words);
  expect(run.code).toBe(2);
  expect(run.err).toMatch(said);
});

test('check: problems of all files in one run, and as JSON', async () => {
  const { growdown } = folderWith({
    ...sound,
    'cases/quernholt/2.md': animalFile('2', 'top: 22 mm'),
    'cases/quernholt/3.md': animalFile('3').replace('2026-01-06', '2026-02-30'),
  });
  const run = await growdown('check');
  expect(run.code).toBe(1);
  expect(run.err).toContain('cases/quernholt/2.md:');
  expect(run.err).toContain('cases/quernholt/3.md:');
  expect(run.out).toMatch(/^2 errors/);
  const list = JSON.parse((await growdown('check', '--json')).out) as { severity: string; path?: unknown }[];
  expect(list.flatMap(({ severity, path }) => (severity === 'error' ? [path] : []))).toEqual([
    ['visits', 0, 'found', 'a', 'top'],
    ['visits', 0, 'date'],
  ]);
});

test('check writes nothing', async () => {
  const { folder, growdown } = folderWith(sound);
  expect((await growdown('check')).code).toBe(0);
  expect(existsSync(join(folder, 'books'))).toBe(false);
});

test('an empty folder and a farm without animals say what to do next', async () => {
  const empty = await folderWith({ 'cases/.keep': '' }).growdown('check');
  expect(empty.err).toMatch(/fix: .*farm\.md/);
  const missing = await folderWith({}).growdown('books');
  expect(missing.code).not.toBe(0);
  expect(missing.err).toMatch(/cases/);
  const bare = folderWith({ 'cases/quernholt/farm.md': farmFile });
  const run = await bare.growdown('books');
  expect(run.code).toBe(0);
  expect(existsSync(join(bare.folder, 'books/quernholt.html'))).toBe(true);
  expect((await bare.growdown('check')).err).toMatch(/quernholt/);
});

test('forecast: JSON entries sorted by farm, animal and lesion, and a table to read', async () => {
  const { growdown } = folderWith({ ...sound, 'cases/quernholt/0312.md': animalFile('0312') });
  const entries = JSON.parse((await growdown('forecast', '--json')).out);
  expect(entries.map((e: { animal: string }) => e.animal)).toEqual(['0312', '2086']);
  expect(entries[1]).toMatchObject({
    farm: 'quernholt',
    animal: '2086',
    number: '2086',
    lesion: 'a',
    line: 'heel',
    readings: [{ date: '2026-01-06', topMm: 17, kind: 'first' }],
    wallMm: 43,
    wallSdMm: 2,
    wallSource: 'measured',
    from: '2026-01-06',
  });
  const table = await growdown('forecast');
  expect(table.code).toBe(0);
  expect(table.out).toContain('2086');
});

test('progress is shown where a terminal is attached and wiped when done', async () => {
  const { growdown } = folderWith(sound, { terminalWidth: 80 });
  expect((await growdown('books')).err).toMatch(/1 of 1 {2}Quernholt\r.*$/s);
  expect((await folderWith(sound).growdown('books')).err).toBe('');
});

test('a fault of our own is said to be ours', async () => {
  const { growdown } = folderWith(sound, {
    print: () => {
      throw new TypeError('made for this test');
    },
  });
  const run = await growdown('forecast');
  expect(run.code).toBe(3);
  expect(run.err).toContain('a fault in this program');
});

const twoFarms = {
  ...sound,
  'cases/quernholt/0312.md': grownFile('0312', 29),
  'cases/quernholt/0313.md': grownFile('0313', 28),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/31.md': grownFile('31', 27),
  'cases/harrowmere/32.md': grownFile('32', 30),
};

/** A cow whose gap came down fast in spring. */
function grownFile(number: string, top: number): string {
  return animalFile(number).replace(
    '---\n\nInvented',
    `  - date: 2026-02-17
    by: Orla Venn
    kind: recheck
    found:
      a: { state: open, top: ${top}, top-found: seen, tool: tape }
---\n\nInvented`,
  );
}

test('forecast: all farms teach, and a date does not hang on which farm is printed', async () => {
  const { growdown } = folderWith(twoFarms);
  const all = JSON.parse((await growdown('forecast', '--json')).out) as { farm: string }[];
  const one = JSON.parse((await growdown('forecast', '--json', '--farm', 'quernholt')).out);
  expect(one).toEqual(all.filter(({ farm }) => farm === 'quernholt'));
  expect(one[0].prior.learnedFrom).toEqual({ cows: 3, upTo: '2026-03-31' });
  expect(one[0].prior.mean).toBeGreaterThan(1);
  const published = JSON.parse((await growdown('forecast', '--json', '--prior', 'published')).out);
  expect(published[0].prior.mean).toBe(1);
  expect(published[0].out).not.toEqual(one[0].out);
});

test('forecast: what another farm has wrong is neither reported nor in the way of one', async () => {
  const { growdown, put } = folderWith(twoFarms);
  put('cases/harrowmere/31.md', 'not a case file');
  expect(await growdown('forecast', '--farm', 'quernholt')).toMatchObject({ code: 0, err: '' });
  expect((await growdown('forecast')).code).toBe(1);
});

test('forecast: an entry says the status of the gap, what is due, what is for the vet and what is worth measuring', async () => {
  const { growdown } = folderWith({ ...sound, 'cases/quernholt/0312.md': grownFile('0312', 23) });
  const [entry] = JSON.parse((await growdown('forecast', '--json', '--today', '2026-02-20')).out);
  expect(entry.standing).toMatchObject({ word: 'growing-down', evidence: { thenMm: 17, nowMm: 23 } });
  expect(entry.due.map(({ what }: { what: string }) => what)).toContain('recheck');
  expect(entry.notices).toEqual([]);
  expect(entry.worthMeasuring).toMatchObject({ lesion: 'a', on: expect.stringMatching(/^2026-/) });
});

test('books: a picture that is named and not there is listed as missing', async () => {
  const { folder, growdown } = folderWith({
    ...sound,
    'cases/quernholt/2086.md': animalFile('2086').replace(
      '---\n\nInvented',
      '    photos: [ { file: photos/gone.jpg, foot: LH, view: sole, when: after } ]\n---\n\nInvented',
    ),
  });
  const run = await growdown('books');
  expect(run.code).toBe(0);
  expect(readFileSync(join(folder, 'books/quernholt.html'), 'utf8')).toContain(
    wordsOf('en-GB').say('missing.photo-missing.message', { file: 'photos/gone.jpg', day: '6 January 2026' }),
  );
});

test('books: --open-only writes a short book under the same name, and the book says how many cases are left out', async () => {
  const closed = animalFile('31').replace(
    'visits:',
    'episodes:\n  - { ended: 2026-02-10, result: sold }\nvisits:',
  );
  const { folder, growdown } = folderWith({ ...sound, 'cases/quernholt/31.md': closed });
  const bookAfter = async (...more: string[]) => {
    const run = await growdown('books', ...more);
    expect(run).toMatchObject({ code: 0, err: '' });
    return { run, html: readFileSync(join(folder, 'books/quernholt.html'), 'utf8') };
  };
  expect((await bookAfter()).html).toContain('id="animal-31"');
  const short = await bookAfter('--open-only');
  expect(short.run.out).toContain('; open cases only');
  expect(short.html).not.toContain('id="animal-31"');
  expect(short.html).toContain('id="animal-2086"');
  expect(short.html).toContain('one closed case is left out');
  expect(JSON.parse((await growdown('books', '--open-only', '--json')).out)).toMatchObject({
    books: [{ farm: 'quernholt', openOnly: true }],
  });
});

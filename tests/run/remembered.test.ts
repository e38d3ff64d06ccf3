import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { addDays } from '../../src/record/calendar-day.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { digestOf } from '../../src/herd/farm-digest.js';
import { pooledAsData, pooledOf } from '../../src/herd/pooled-on.js';
import { cacheFolder, cacheIn } from '../../src/cli/node-cache.js';
import { animalFile, farmFile, folderWith } from '../cli/run-in-folder.js';

const today = '2026-06-16';
const root = fileURLToPath(new URL('../../', import.meta.url));

/** Two farms whose books are made in a folder that keeps what was made. */
function kept() {
  const closed = animalFile('11').replace(
    'visits:',
    'episodes:\n  - { lame-since: 2026-01-02, told-by: milker, ended: 2026-01-06, result: sold }\nvisits:',
  );
  const at = folderWith(
    {
      'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
      'cases/harrowmere/11.md': closed,
      'cases/quernholt/farm.md': farmFile,
      'cases/quernholt/2086.md': animalFile('2086'),
      'cases/quernholt/2087.md': animalFile('2087', 'top: 12, top-found: seen, wall: 43, tool: tape'),
    },
    { cache: () => cacheIn(join(at.folder, 'cases')) },
  );
  const read = (book: string) => readFileSync(join(at.folder, 'books', book), 'utf8');
  const books = () => ({ harrowmere: read('harrowmere.html'), quernholt: read('quernholt.html') });
  /** Another one once the file was written again. */
  const marks = () =>
    Object.fromEntries(
      ['harrowmere', 'quernholt'].map((farm) => {
        const { ino, ctimeMs } = statSync(join(at.folder, 'books', `${farm}.html`));
        return [farm, `${ino} ${ctimeMs}`];
      }),
    );
  /** The books a run makes that keeps nothing, somewhere else. */
  const anew = async (...words: string[]) => {
    await at.growdown('books', '--no-cache', '--out', 'anew', ...words);
    const of = (farm: string) => readFileSync(join(at.folder, 'anew', `${farm}.html`), 'utf8');
    return { harrowmere: of('harrowmere'), quernholt: of('quernholt') };
  };
  const entries = () =>
    readdirSync(join(at.folder, 'cases', cacheFolder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.json'))
      .map((name) => join(at.folder, 'cases', cacheFolder, name));
  return { ...at, books, marks, anew, entries };
}

test('what has not changed is not written again, says the same, and has the bytes of a run that keeps nothing', async () => {
  const { growdown, books, marks, anew } = kept();
  const first = await growdown('books');
  const before = marks();
  expect(await growdown('books')).toEqual(first);
  expect(marks()).toEqual(before);
  expect(books()).toEqual(await anew());
});

test('a changed word in one case touches one book, and what all farms teach is not worked out again', async () => {
  const { folder, growdown, books, marks, anew, put } = kept();
  await growdown('books');
  const before = marks();
  const pooled = () => statSync(join(folder, 'cases', cacheFolder, 'pooled.json')).ctimeMs;
  const taught = pooled();
  put('cases/quernholt/2086.md', animalFile('2086').replace('Invented for', 'Made up for'));
  await growdown('books');
  expect(marks()['harrowmere']).toBe(before['harrowmere']);
  expect(marks()['quernholt']).not.toBe(before['quernholt']);
  expect(pooled()).toBe(taught);
  expect(books().quernholt).toContain('Made up for');
  expect(books()).toEqual(await anew());
});

test('on later and earlier days a book has the bytes of a run that keeps nothing', async () => {
  const { growdown, books, anew } = kept();
  for (const day of ['2026-06-16', '2026-06-17', '2027-02-01', '2026-03-01', '2026-01-05']) {
    const run = await growdown('books', '--today', day);
    if (run.code === 0) expect(books()).toEqual(await anew('--today', day));
    // The visit of 6 January lies ahead then: a reading kept of a later day would hide it.
    else expect([day, run.err]).toEqual(['2026-01-05', expect.stringMatching(/after-today/)]);
  }
});

test('a book that is deleted or changed by hand is written again', async () => {
  const { folder, growdown, books } = kept();
  await growdown('books');
  const before = books();
  rmSync(join(folder, 'books', 'quernholt.html'));
  writeFileSync(
    join(folder, 'books', 'harrowmere.html'),
    before.harrowmere.replace('Harrowmere', 'Harrowmore'),
  );
  await growdown('books');
  expect(books()).toEqual(before);
});

test('an entry that was cut short, changed, put in another’s place or made by another version is not used', async () => {
  const { folder, growdown, books, entries } = kept();
  await growdown('books');
  const before = books();
  const all = entries();
  expect(all.length).toBeGreaterThan(6);
  const ways: ((bytes: Buffer, at: number) => Buffer)[] = [
    (bytes) => bytes.subarray(0, bytes.length / 2),
    (bytes) => Buffer.from(bytes.toString('utf8').replace(/2086|Invented|healed|17/g, '2099')),
    (_, at) => readFileSync(all[(at + 1) % all.length]!),
    () => Buffer.from('{"__proto__":{"polluted":true}}'),
    () => Buffer.alloc(0),
  ];
  for (const way of ways) {
    const were = all.map((path) => readFileSync(path));
    for (const [at, path] of all.entries()) writeFileSync(path, way(were[at]!, at));
    // The books are gone as well, so that every entry is asked for.
    rmSync(join(folder, 'books'), { recursive: true });
    expect(await growdown('books')).toMatchObject({ code: 0, err: '' });
    expect(books()).toEqual(before);
  }
  expect(({} as { polluted?: true }).polluted).toBeUndefined();
  rmSync(join(folder, 'cases', cacheFolder), { recursive: true });
  rmSync(join(folder, 'books'), { recursive: true });
  await growdown('books');
  expect(books()).toEqual(before);
});

test('check says the same again, and what has changed since', async () => {
  const { growdown, put } = kept();
  const first = await growdown('check');
  expect(await growdown('check')).toEqual(first);
  expect(await growdown('check', '--no-cache')).toEqual(first);
  put('cases/quernholt/2087.md', animalFile('2087').replace('gait: 2', 'gait: 7'));
  expect((await growdown('check')).err).toMatch(/2087\.md:\d+:\d+: error/);
});

test('an entry is given for its name and its key alone, and farms that are gone are forgotten', () => {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const cache = cacheIn(folder);
  cache.keep('farm/thing', 'key', { of: 1 });
  expect(cache.recall('farm/thing', 'key')).toEqual({ of: 1 });
  expect(cache.recall('farm/thing', 'other key')).toBeUndefined();
  expect(cache.recall('farm/other', 'key')).toBeUndefined();
  cache.keep('gone/thing', 'key', 1);
  cache.only(['farm']);
  expect(cache.recall('gone/thing', 'key')).toBeUndefined();
  expect(cache.hashOf('farm/thing', 'key')).toBeDefined();
});

test('records, digests and what all teach are the same after they were kept', () => {
  for (const cases of ['cases', 'tests/casefiles/good/every-key', 'tests/casefiles/good/ten-years']) {
    const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const plain = readPractice(nodeCaseFiles, join(root, cases), { today }).practice.farms;
    expect(plain.length).toBeGreaterThan(0);
    for (const day of [today, today, addDays(today, 1)]) {
      const parsed: string[] = [];
      const { practice } = readPractice(nodeCaseFiles, join(root, cases), {
        today: day,
        memory: cacheIn(folder),
        onRead: ({ slug }) => void parsed.push(slug),
      });
      expect(JSON.parse(JSON.stringify(practice.farms))).toEqual(JSON.parse(JSON.stringify(plain)));
      for (const [at, farm] of practice.farms.entries()) {
        const path = ['visits', 0, 'date'];
        expect(farm.cases[0]?.source.placeOf(path)).toEqual(plain[at]!.cases[0]?.source.placeOf(path));
      }
    }
    const digests = plain.map((farm) => digestOf(farm, today));
    const data = pooledAsData(pooledOf(digests, today), digests);
    expect(JSON.parse(JSON.stringify(data))).toEqual(data);
  }
});

test('an old file with a control character is warned of on every day, parsed or not', () => {
  const at = folderWith({
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': `${animalFile('2086')}\nSeen at the gate\u0007 in the rain.\n`,
  });
  const cases = join(at.folder, 'cases');
  const on = (day: string) =>
    readPractice(nodeCaseFiles, cases, { today: day, memory: cacheIn(cases) }).problems;
  const first = on(today);
  expect(first).toMatchObject([{ id: 'record/hidden-sign', severity: 'warning' }]);
  expect(on(today)).toEqual(first);
  expect(on(addDays(today, 1))).toEqual(first);
});

test('a new day parses no case file that has not changed, and checks it all the same', () => {
  const at = folderWith({
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': animalFile('2086').replace('gait: 2', 'gait: 2\n    recheck: 2026-06-20'),
  });
  const cases = join(at.folder, 'cases');
  const read: string[] = [];
  const files = { ...nodeCaseFiles, read: (path: string) => (read.push(path), nodeCaseFiles.read(path)) };
  const on = (day: string) => {
    read.length = 0;
    const { problems, practice } = readPractice(files, cases, { today: day, memory: cacheIn(cases) });
    return { problems, farms: practice.farms.length, reads: read.length };
  };
  const first = on(today);
  // For the hash, and to be parsed.
  expect(first).toEqual({ problems: [], farms: 1, reads: 4 });
  expect(on(today)).toEqual({ problems: [], farms: 1, reads: 2 });
  expect(on('2026-06-17')).toEqual({ problems: [], farms: 1, reads: 2 });
  const before = on('2026-01-01');
  expect(before.farms).toBe(0);
  expect(before.problems).toEqual(readPractice(nodeCaseFiles, cases, { today: '2026-01-01' }).problems);
});

test('a forged entry hides nothing from a check against a head, nor from an audit', async () => {
  const { folder, growdown, put } = kept();
  await growdown('seal');
  await growdown('books');
  await growdown('check');
  put('cases/quernholt/2087.md', animalFile('2087').replace('gait: 2', 'gait: 3'));
  const told = await growdown('check', '--no-cache');
  expect(told.err).toMatch(/quernholt.*(?:changed|seal)/);
  await growdown('check');
  // What was read of the farm says that nothing is wrong with it, under a key and a hash that fit.
  const lying = join(folder, 'cases', cacheFolder);
  for (const name of ['reading-hashed', 'reading-sized', 'check'])
    forge(join(lying, 'quernholt', `${name}.json`), (entry) =>
      'problems' in entry ? { ...entry, problems: [] } : { ...entry, said: [], done: [] },
    );
  expect((await growdown('check')).err).not.toBe(told.err);
  const head = ['--farm', 'quernholt', '--head', '0000-0000-0000'];
  expect((await growdown('check', ...head)).err).toEqual(
    (await growdown('check', ...head, '--no-cache')).err,
  );
  forge(
    join(lying, 'harrowmere', 'records.json'),
    (entry) => JSON.parse(JSON.stringify(entry).replaceAll('"gait":2', '"gait":1')) as object,
  );
  const packs = () => {
    const at = join(folder, 'audits');
    const files = readdirSync(at, { recursive: true, encoding: 'utf8' }).filter((name) => name.includes('.'));
    return files.map((name) => [name, readFileSync(join(at, name), 'utf8')]);
  };
  await growdown('audit');
  const forged = packs();
  rmSync(join(folder, 'cases', cacheFolder), { recursive: true });
  await growdown('audit');
  expect(forged).toEqual(packs());
});

/** Changes what an entry holds as somebody would who knows how it is made. */
function forge(path: string, change: (entry: object) => object): void {
  if (!existsSync(path)) return;
  const [, head = '', json = ''] = readFileSync(path, 'utf8').split('\n');
  const made = JSON.stringify(change(JSON.parse(json) as object));
  writeFileSync(path, `${createHash('sha256').update(made).digest('base64')}\n${head}\n${made}`);
}

test('pictures are taken for unchanged by `books` alone: `check` reads those that are sealed each time', () => {
  const at = folderWith({
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': animalFile('2086'),
    'cases/quernholt/photo.jpg': Uint8Array.of(0xff, 0xd8, 0xff, 0xe0),
    'cases/quernholt/.growdown/ledger.jsonl': '',
  });
  const cases = join(at.folder, 'cases');
  const keyed = (trustsPictures: boolean, pictures: 'sized' | 'hashed' = 'hashed') =>
    readPractice(nodeCaseFiles, cases, { today, pictures, trustsPictures, memory: cacheIn(cases) }).keyOf(
      'quernholt',
    );
  const before = keyed(true);
  expect(before).toBeDefined();
  expect(keyed(false)).toBeUndefined();
  expect(keyed(false, 'sized')).toBe(before);
  writeFileSync(join(cases, 'quernholt', 'photo.jpg'), Uint8Array.of(0xff, 0xd8, 0xff, 0xe1, 0));
  expect(keyed(true)).not.toBe(before);
});

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { animalFile, farmFile, folderWith } from './run-in-folder.js';

const files = {
  'cases/business.md': '---\ntrimmer: Orla Venn\n---\n\nHer own words.\n',
  'cases/quernholt/farm.md': farmFile,
  'cases/quernholt/2086.md': animalFile('2086'),
  'cases/quernholt/0312.md': animalFile('0312').replace('calvings:', 'handling: "=1+1"\ncalvings:'),
  'cases/harrowmere/farm.md': farmFile.replace('Quernholt', 'Harrowmere'),
  'cases/harrowmere/587.md': animalFile('587'),
};
const read = (folder: string, name: string): string => readFileSync(join(folder, name), 'utf8');

test.each(['csv', 'json', 'icar'])(
  'export --to %s writes its files, and the same bytes again',
  async (to) => {
    const { folder, growdown } = folderWith(files);
    const first = await growdown('export', '--to', to);
    expect(first).toMatchObject({ code: 0 });
    expect(first.out).toContain('Quernholt: 2 animals, 2 visits');
    const names = readdirSync(join(folder, 'export', to));
    expect(names.length).toBeGreaterThan(2);
    const bytes = names.map((name) => read(folder, `export/${to}/${name}`));
    expect((await growdown('export', '--to', to)).out).toBe(first.out);
    expect(names.map((name) => read(folder, `export/${to}/${name}`))).toEqual(bytes);
  },
);

test('--farm exports that farm alone; --json reports what was written', async () => {
  const { folder, growdown } = folderWith(files);
  const said = await growdown('export', '--to', 'json', '--farm', 'harrowmere', '--json', '--out', 'given');
  expect(JSON.parse(said.out)).toMatchObject({ to: 'json', farms: ['harrowmere'] });
  expect(read(folder, 'given/json/records.json')).not.toContain('quernholt');
});

test('text like a formula is reported; --guard puts an apostrophe before it', async () => {
  const { folder, growdown } = folderWith(files);
  const plain = await growdown('export', '--to', 'csv');
  expect(plain.err).toContain('animals.csv, row 3, handling');
  expect(read(folder, 'export/csv/animals.csv')).toContain(',=1+1,');
  const guarded = await growdown('export', '--to', 'csv', '--guard');
  expect(guarded.err).toContain('apostrophe');
  expect(read(folder, 'export/csv/animals.csv')).toContain(",'=1+1,");
});

test('a farm with an error stops the export, which would lack it in silence; another can be named', async () => {
  const { folder, growdown } = folderWith({
    ...files,
    'cases/quernholt/2086.md': animalFile('2086').replace('gait:', 'gate:'),
  });
  const said = await growdown('export', '--to', 'csv');
  expect(said).toMatchObject({ code: 1, out: '' });
  expect(said.err).toContain('key/unknown');
  expect(said.err).toContain('nothing was written');
  expect(existsSync(join(folder, 'export'))).toBe(false);
  expect(await growdown('export', '--to', 'csv', '--farm', 'harrowmere')).toMatchObject({ code: 0 });
});

test('a wrong call is reported with what is expected', async () => {
  const { growdown } = folderWith(files);
  expect((await growdown('export')).code).toBe(2);
  expect((await growdown('export', '--to', 'xml')).err).toContain('csv, json, icar');
  expect((await growdown('export', '--to', 'json', '--guard')).code).toBe(2);
  expect((await growdown('export', '--to', 'csv', '--tag-scheme', 'x')).code).toBe(2);
  expect((await growdown('export', '--to', 'icar', '--tag-scheme', '')).code).toBe(2);
  expect((await growdown('export', '--to', 'icar', '--tag-scheme', 'org.example.tags')).code).toBe(0);
  expect((await growdown('export', '--to', 'csv', '--farm', 'nowhere')).code).toBe(2);
  const empty = folderWith({ 'cases/notes.txt': '' });
  expect((await empty.growdown('export', '--to', 'json')).code).not.toBe(0);
});

describe('import of what export wrote', () => {
  const exported = async () => {
    const from = folderWith(files);
    await from.growdown('export', '--to', 'json');
    return read(from.folder, 'export/json/records.json');
  };

  test('gives the same records in an empty folder, and the same export from them', async () => {
    const text = await exported();
    const { folder, growdown } = folderWith({ 'records.json': text });
    const dry = await growdown('import', 'records.json', '--dry-run');
    expect(dry).toMatchObject({ code: 0, err: '' });
    expect(dry.out).toContain('nothing was written');
    expect(existsSync(join(folder, 'cases'))).toBe(false);
    expect(await growdown('import', 'records.json')).toMatchObject({ code: 0 });
    expect(read(folder, 'cases/quernholt/0312.md')).toContain('animal: "0312"');
    expect(read(folder, 'cases/business.md')).toBe('---\ntrimmer: Orla Venn\n---\n\nHer own words.\n');
    expect(await growdown('check')).toMatchObject({ code: 0 });
    await growdown('export', '--to', 'json');
    expect(read(folder, 'export/json/records.json')).toBe(text);
    // A second run finds all of it there.
    const again = await growdown('import', 'records.json');
    expect(again).toMatchObject({ code: 0, err: '' });
    expect(again.out).toContain('nothing to write: all 6 files are there already');
  });

  test('a file that holds something else stops it: nothing is written, and each is named', async () => {
    const own = animalFile('2086').replace('gait: 2', 'gait: 1');
    const { folder, growdown } = folderWith({
      'records.json': await exported(),
      'cases/quernholt/farm.md': farmFile,
      'cases/quernholt/2086.md': own,
      'cases/harrowmere/farm.md': farmFile,
    });
    const said = await growdown('import', 'records.json');
    expect(said).toMatchObject({ code: 2, out: '' });
    expect(said.err).toContain('cases/quernholt/2086.md already exists with other contents');
    expect(said.err).toContain('cases/harrowmere/farm.md already exists with other contents');
    expect(said.err).toContain('nothing was written');
    expect(read(folder, 'cases/quernholt/2086.md')).toBe(own);
    expect(existsSync(join(folder, 'cases/business.md'))).toBe(false);
    expect(existsSync(join(folder, 'cases/quernholt/0312.md'))).toBe(false);
  });

  test('what is there and says the same in another style is left as it is, and undo takes the rest back', async () => {
    const own = animalFile('2086').replace('calvings:', '# hers\ncalvings:');
    const { folder, growdown } = folderWith({
      'records.json': await exported(),
      'cases/quernholt/farm.md': farmFile,
      'cases/quernholt/2086.md': own,
    });
    const said = await growdown('import', 'records.json', '--farm', 'quernholt');
    expect(said).toMatchObject({ code: 0 });
    expect(said.out).toContain('cases/quernholt/0312.md: new');
    expect(read(folder, 'cases/quernholt/2086.md')).toBe(own);
    expect(existsSync(join(folder, 'cases/business.md'))).toBe(false);
    expect(existsSync(join(folder, 'cases/harrowmere'))).toBe(false);
    expect(await growdown('undo', 'quernholt')).toMatchObject({ code: 0 });
    expect(existsSync(join(folder, 'cases/quernholt/0312.md'))).toBe(false);
    expect(existsSync(join(folder, 'cases/quernholt/2086.md'))).toBe(true);
  });

  test.each([
    ['a device name', '"slug": "587"', '"slug": "con"', '`con.md` cannot be a name here'],
    ['a name no animal has', '"slug": "587"', '"slug": "readme"', 'no animal’s file can be called'],
    ['one file twice', '"slug": "0312"', '"slug": "2086"', 'hold quernholt/2086.md twice'],
    ['a record with an error', '"date": "2026-01-06"', '"date": "2028-01-06"', 'record/visit-after-today'],
    ['an unknown key', '"gait": 2', '"gate": 2', 'did you mean `gait`?'],
  ])('refuses %s and writes nothing', async (_, from, to, expected) => {
    const { folder, growdown } = folderWith({ 'records.json': (await exported()).replace(from, to) });
    const said = await growdown('import', 'records.json');
    expect(said.code).not.toBe(0);
    expect(said.code).not.toBe(3);
    expect(said.err.replaceAll("'", '’')).toContain(expected.replaceAll("'", '’'));
    expect(said.out).toBe('');
    expect(existsSync(join(folder, 'cases'))).toBe(false);
  });

  test('an option of lists, a farm that is not in it, a file that is not there: each is reported', async () => {
    const { growdown } = folderWith({
      'records.json': await exported(),
      'list.csv': 'Ear No\n1\n',
      'x.json': 'PK\u0003\u0004',
    });
    expect((await growdown('import', 'records.json', '--start-all')).err).toContain(
      '--start-all is for lists',
    );
    expect((await growdown('import', 'records.json', '--farm', 'nowhere')).err).toContain(
      '`harrowmere`, `quernholt`',
    );
    expect((await growdown('import', 'none.json')).code).toBe(2);
    expect((await growdown('import', 'x.json')).code).toBe(2);
    expect((await growdown('import', 'list.csv')).err).toContain('--farm');
  });
});

import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gps, parse } from 'exifr';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sha512Of } from '../../src/bag/bag-form.js';
import { nodeArchiveDisk } from '../../src/cli/node-disk.js';
import { twoFarms } from './archived-farms.js';
import { animalFile, farmFile, folderWith, type Run } from './run-in-folder.js';

function filesIn(folder: string): Map<string, Buffer> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const paths = entries.filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name));
  return new Map(
    paths.sort().map((path) => [path.slice(folder.length + 1).replaceAll('\\', '/'), readFileSync(path)]),
  );
}

/** Comparing hashes is quick where comparing the bytes one by one is not. */
function hashesIn(folder: string): Map<string, string> {
  return new Map([...filesIn(folder)].map(([path, bytes]) => [path, sha512Of([bytes])]));
}

describe('an archive of two farms', async () => {
  const farms = await twoFarms();
  const all: { folder: string; growdown: (...words: string[]) => Promise<Run>; run: Run } = {} as never;
  beforeAll(async () => {
    const { folder, growdown } = folderWith(farms, {}, afterAll);
    Object.assign(all, { folder, growdown, run: await growdown('archive', '--zip') });
  }, 60_000);

  test('holds each farm alone, with all that is to be kept, and verifies', async () => {
    const { folder, growdown, run } = all;
    expect(run).toMatchObject({ code: 0 });
    const quernholt = filesIn(`${folder}/archives/quernholt-2026-06-16`);
    expect(
      [...quernholt.keys()].filter((path) => /^data\/(?:cases|books|pictures|archive)/.test(path)),
    ).toEqual([
      'data/archive.json',
      'data/books/quernholt-annex.html',
      'data/books/quernholt.html',
      'data/cases/business.md',
      'data/cases/quernholt/2086.md',
      'data/cases/quernholt/2117.md',
      'data/cases/quernholt/farm.md',
      'data/cases/quernholt/photos/2086.jpg',
      'data/cases/quernholt/plan.pdf',
      'data/cases/quernholt/renamed/bock-93ba63251450.jpg',
      'data/pictures.csv',
    ]);
    for (const path of [
      'audit/audit.html',
      'records/records.json',
      'format/case-files.md',
      'format/animal.schema.json',
    ])
      expect(quernholt.has(`data/${path}`)).toBe(true);
    for (const name of ['2086.md', '2117.md', 'farm.md'])
      expect(quernholt.get(`data/cases/quernholt/${name}`)!.toString()).toBe(
        farms[`cases/quernholt/${name}`],
      );
    const hash = /2086\.jpg,[^,]+,[^,]+,\d+,([0-9a-f]{128}),/.exec(
      quernholt.get('data/pictures.csv')!.toString(),
    )![1]!;
    expect(quernholt.get('data/books/quernholt-annex.html')!.toString()).toMatch(
      new RegExp(`photos/2086\\.jpg[^]*${hash}[^]*id="animal-2117"`),
    );
    for (const bytes of quernholt.values()) expect(bytes.includes('Secretfold')).toBe(false);
    for (const bytes of filesIn(`${folder}/archives/harrowmere-2026-06-16`).values())
      expect(bytes.includes('Ada Fold') || bytes.includes('practice: Oak')).toBe(false);
    for (const name of ['quernholt-2026-06-16', 'quernholt-2026-06-16.zip', 'harrowmere-2026-06-16.zip'])
      expect(await growdown('verify', `archives/${name}`)).toMatchObject({ code: 0, err: '' });
    if (spawnSync('sha512sum', ['--version']).status === 0)
      for (const list of ['manifest-sha512.txt', 'tagmanifest-sha512.txt'])
        execFileSync('sha512sum', ['--strict', '--quiet', '-c', list], {
          cwd: `${folder}/archives/quernholt-2026-06-16`,
        });
  });

  test('is the same bytes from the same records, folder and zip', async () => {
    const { folder, growdown } = all;
    await growdown('archive', '--zip', '--farm', 'quernholt', '--out', 'again');
    expect(readdirSync(`${folder}/again`)).toEqual(['quernholt-2026-06-16', 'quernholt-2026-06-16.zip']);
    const before = filesIn(`${folder}/archives`);
    for (const [path, bytes] of filesIn(`${folder}/again`))
      expect(bytes.equals(before.get(path)!)).toBe(true);
  });

  test('leaves out where pictures were taken, lists both checksums, and says what it left out', async () => {
    const { folder, run } = all;
    const bag = filesIn(`${folder}/archives/quernholt-2026-06-16`);
    const photo = bag.get('data/cases/quernholt/photos/2086.jpg')!;
    expect(await gps(farms['cases/quernholt/photos/2086.jpg'] as Buffer)).toBeDefined();
    expect(await gps(photo)).toBeUndefined();
    expect(await parse(photo)).toMatchObject({ Orientation: 'Rotate 90 CW' });
    for (const [path, bytes] of bag)
      if (path.endsWith('.jpg')) expect(bytes.includes('Odderingworks')).toBe(false);
    const list = bag.get('data/pictures.csv')!.toString().split('\r\n');
    expect(list[0]).toBe('file,archived_as,location,bytes_as_taken,sha512_as_taken,sha512_archived');
    expect(list[1]).toMatch(
      /^photos\/2086.jpg,cases\/quernholt\/photos\/2086.jpg,removed,\d+,[0-9a-f]{128},[0-9a-f]{128}$/,
    );
    expect(list[2]).toMatch(/^photos\/Böck.jpg,cases\/quernholt\/renamed\/bock-\w+.jpg,none found,/);
    expect(list[3]).toMatch(/^photos\/walk-2026-01-06.mp4,,left out,6,[0-9a-f]{128},$/);
    expect(run.err).toContain(
      'quernholt/photos/walk-2026-01-06.mp4: left out of the archive: a film may reveal where it was taken',
    );
    expect(run.err).toContain('quernholt/Thumbs.db: left out of the archive');
    const readme = bag.get('README.txt')!.toString();
    expect(readme).toContain('- photos/walk-2026-01-06.mp4: a film may reveal where it was taken');
    expect(readme.split('\n').filter((line) => line.length > 78)).toEqual([]);
    expect(readme).not.toMatch(/[{}]/);
  });

  test('keeps pictures and films as they are, and leaves out contacts, where that is asked for', async () => {
    const { folder, growdown } = folderWith(farms);
    const { err } = await growdown('archive', '--farm', 'quernholt', '--keep-location', '--no-contacts');
    const bag = filesIn(`${folder}/archives/quernholt-2026-06-16`);
    const photos = 'cases/quernholt/photos';
    expect(bag.get(`data/${photos}/2086.jpg`)).toEqual(farms[`${photos}/2086.jpg`]);
    expect(bag.get(`data/${photos}/walk-2026-01-06.mp4`)!.toString()).toBe('a film');
    expect(err).not.toContain('walk');
    expect(bag.get('README.txt')!.toString()).toContain('Nothing was taken out of the pictures and films');
    for (const [path, bytes] of bag)
      for (const contact of ['venn.example', '632 96000', 'Lower Barn', 'Long Lane'])
        if (bytes.includes(contact)) expect(`${path}: ${contact}`).toBe('');
    expect(bag.get('data/cases/business.md')!.toString()).toBe(`---
business: Venn Foot Trimming
email: "left out"
phone: "left out"   # the yard's
address: "left out"
reply-to: "left out"
---

Open from six.
`);
    const farm = bag.get('data/cases/quernholt/farm.md')!.toString();
    expect(farm).toContain('contact: { name: Ada Fold, phone: "left out" }');
    expect(farm).toContain('vet: { practice: Oak, phone: "left out", email: "left out" }');
    expect(bag.get('README.txt')!.toString()).toContain('Email addresses, telephone numbers');
    expect(await growdown('verify', 'archives/quernholt-2026-06-16')).toMatchObject({ code: 0 });
  });

  test('of a period holds the cases of that time, each with a page of its own, and verifies though sealed whole', async () => {
    const { folder, growdown } = folderWith(farms);
    expect(await growdown('seal')).toMatchObject({ code: 0 });
    const run = await growdown('archive', '--farm', 'quernholt', '--period', '2026', '--clips');
    expect(run).toMatchObject({ code: 0 });
    const bag = filesIn(`${folder}/archives/quernholt-2026-06-16-of-2026`);
    const paths = [...bag.keys()].filter((path) => /^data\/(?:cases|books)/.test(path));
    expect(paths).toContain('data/books/quernholt/2086.html');
    const annex = bag.get('data/books/quernholt-annex.html')!.toString();
    expect(annex).toContain('id="animal-2086"');
    expect(annex).not.toContain('2117');
    // A film no record names goes by the day in its name.
    expect(paths).toContain('data/cases/quernholt/photos/walk-2026-01-06.mp4');
    expect(await gps(bag.get('data/cases/quernholt/photos/2086.jpg')!)).toBeUndefined();
    expect(paths.filter((path) => path.includes('2117'))).toEqual([]);
    expect(JSON.parse(bag.get('data/archive.json')!.toString())).toMatchObject({
      animals: ['2086'],
      'other-animals': ['2117'],
    });
    expect(await growdown('verify', 'archives/quernholt-2026-06-16-of-2026')).toMatchObject({
      code: 0,
      err: '',
    });
  });

  test('that lacks its zip gets it, as it stands; one that was changed meanwhile gets none', async () => {
    const { folder, growdown } = folderWith(farms);
    await growdown('archive', '--zip');
    rmSync(`${folder}/archives/harrowmere-2026-06-16.zip`);
    expect(await growdown('archive', '--zip', '--farm', 'harrowmere')).toMatchObject({ code: 0 });
    const place = `${folder}/archives/quernholt-2026-06-16`;
    const zip = readFileSync(`${place}.zip`);
    rmSync(`${place}.zip`);
    expect(await growdown('archive', '--zip', '--farm', 'quernholt')).toMatchObject({ code: 0 });
    expect(Buffer.compare(readFileSync(`${place}.zip`), zip)).toBe(0);
    rmSync(`${place}.zip`);
    writeFileSync(`${place}/README.txt`, 'changed');
    const refused = await growdown('archive', '--zip', '--farm', 'quernholt');
    expect(refused).toMatchObject({ code: 2, err: expect.stringContaining('is not as it was written') });
    expect(existsSync(`${place}.zip`)).toBe(false);
  });

  test('is never written over, and nothing is left of one that could not be finished', async () => {
    const { folder, growdown } = all;
    const before = hashesIn(`${folder}/archives`);
    const again = await growdown('archive');
    expect(again.code).toBe(2);
    expect(again.err).toContain(
      'archives/harrowmere-2026-06-16 already exists, and an archive is never overwritten',
    );
    expect(hashesIn(`${folder}/archives`)).toEqual(before);

    let files = 0;
    const full = folderWith(farms);
    const disk = nodeArchiveDisk(full.folder);
    const refusing: typeof disk = {
      ...disk,
      create: (path) => {
        files += 1;
        if (files > 20) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
        return disk.create(path);
      },
    };
    const { growdown: onFull } = folderWith({}, { bags: refusing, folder: full.folder });
    const refused = await onFull('archive', '--cases', `${full.folder}/cases`);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('could not be written, and nothing was kept of it: the system refuses');
    expect(readdirSync(`${full.folder}/archives`)).toEqual([]);
  });
});

test('a farm with an error gets no archive; the others get theirs', async () => {
  const { folder, growdown } = folderWith(
    {
      'cases/a/farm.md': farmFile,
      'cases/a/1.md': animalFile('1').replace('gait: 2', 'gait: 9'),
      'cases/b/farm.md': farmFile,
      'cases/b/2.md': animalFile('2'),
    },
    { browser: () => ({ path: '/nowhere/browser' }) },
  );
  const run = await growdown('archive', '--json');
  expect(run.code).toBe(1);
  expect(run.err).toContain('no browser that prints was found, so the archives hold no PDF');
  for (const out of ['cases', 'cases/a/kept'])
    expect(await growdown('archive', '--out', out)).toMatchObject({
      code: 2,
      err: expect.stringContaining('an archive would be taken for a farm') as string,
    });
  expect(run.err).toContain('a: no archive, because of the errors above');
  expect(JSON.parse(run.out)).toMatchObject({
    archives: [{ farm: 'b', animals: 1, head: null }],
    refused: ['a'],
  });
  expect(readdirSync(`${folder}/archives`)).toEqual(['b-2026-06-16']);
});

describe('which cases may go', () => {
  const cases = {
    'cases/a/farm.md': farmFile,
    'cases/a/1.md': animalFile('1').replaceAll('2026-01-06', '2020-01-06'),
    'cases/a/2.md': animalFile('2').replaceAll('2026-01-06', '2021-06-17'),
  };

  test('those without an entry for five years, and nothing is deleted', async () => {
    const { folder, growdown } = folderWith(cases);
    const { out, code } = await growdown('archive', '--may-go');
    expect(code).toBe(0);
    // 1 calved in 2024 by her file: an entry too.
    expect(out).toMatch(/^0 of 2 cases have had no entry for 5 years/);
    const later = await growdown('archive', '--may-go', '--today', '2029-10-19');
    expect(later.out).toMatch(
      /^a\/1 {2}1: last entry 2024-10-19, may go since 2029-10-19; her case was never ended\na\/2 {2}2: /,
    );
    expect((await growdown('archive', '--may-go', '--today', '2029-10-18')).out).toMatch(/^0 of 2/);
    expect(readdirSync(`${folder}/cases/a`)).toEqual(['1.md', '2.md', 'farm.md']);
  });

  test('after as many years as the business keeps them; a leap day ends on the first of March', async () => {
    const { growdown } = folderWith({
      'cases/business.md': '---\nkeep-years: 3\n---\n',
      'cases/a/farm.md': farmFile,
      'cases/a/1.md': animalFile('1')
        .replaceAll('2026-01-06', '2024-02-29')
        .replace('calvings: [2023-09-30, 2024-10-19]\n', ''),
    });
    expect((await growdown('archive', '--may-go', '--today', '2027-02-28')).out).toMatch(/^0 of 1/);
    expect((await growdown('archive', '--may-go', '--today', '2027-03-01', '--json')).out).toContain(
      '"since": "2027-03-01"',
    );
  });
});

import { expect, test } from 'vitest';
import { verifyArchive } from '../../src/bag/check/verify-archive.js';
import { diskInMemory } from './disk-in-memory.js';
import { smallBag, zipped } from './small-bag.js';

/** The same thousand places each run: a run that fails can be looked into. */
function places(count: number, below: number): number[] {
  let state = 20_260_616;
  return Array.from({ length: count }, () => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  });
}

test('a bag as it was written has nothing wrong, in its folder and in its zip', async () => {
  const memory = smallBag();
  const zip = await zipped(memory);
  expect(await verifyArchive(memory.disk, 'bag')).toEqual({ problems: [], files: 10 });
  const { disk } = diskInMemory(new Map([['bag.zip', zip]]));
  expect(await verifyArchive(disk, 'bag.zip')).toEqual({ problems: [], files: 10 });
});

test('a thousand single bytes changed in a bag: each is caught, and the file it is in is named, and no other', async () => {
  const { disk, files } = smallBag();
  const withBytes = [...files.keys()].filter((path) => files.get(path)!.length > 0);
  const turns = places(1000, 255);
  const wrong: string[] = [];
  const touched = new Set<string>();
  for (const [turn, place] of places(1000, 1_000_003).entries()) {
    const path = withBytes[turn % withBytes.length]!;
    const before = files.get(path)!;
    const index = place % before.length;
    const changed = Buffer.from(before);
    changed[index] = (changed[index]! + 1 + turns[turn]!) % 256;
    files.set(path, changed);
    const { problems } = (await verifyArchive(disk, 'bag'))!;
    files.set(path, before);
    touched.add(path);
    const named = [...new Set(problems.map(({ file }) => file))];
    if (named.length !== 1 || named[0] !== path) wrong.push(`${path}:${index} → ${named.join(', ')}`);
  }
  expect(wrong).toEqual([]);
  expect(touched.size).toBe(9);
});

test('a changed file and a changed list are distinguished', async () => {
  const { disk, files } = smallBag();
  const before = files.get('bag/data/cases/quernholt/farm.md')!;
  files.set('bag/data/cases/quernholt/farm.md', Buffer.from('another'));
  const { problems } = (await verifyArchive(disk, 'bag'))!;
  expect(problems.map(({ id, message }) => `${id}: ${message}`)).toEqual([
    'archive/changed-file: the file is not the one that was archived: its checksum differs from manifest-sha512.txt',
  ]);
  files.set('bag/data/cases/quernholt/farm.md', before);
  const list = Buffer.from(files.get('bag/tagmanifest-sha512.txt')!);
  list.write(list.toString('utf8', 0, 1) === '0' ? '1' : '0');
  files.set('bag/tagmanifest-sha512.txt', list);
  expect((await verifyArchive(disk, 'bag'))!.problems.map(({ id, message }) => `${id}: ${message}`)).toEqual([
    'archive/changed-list: the checksum of `README.txt` was changed in this list; the file itself is as it was',
  ]);
});

test('a thousand single bytes changed in a zip: each is caught, with the file in it that it is about', async () => {
  const memory = smallBag();
  const zip = await zipped(memory);
  const turns = places(1000, 255);
  const wrong: string[] = [];
  const inContent = contentPlaces(zip, memory.files);
  let inFiles = 0;
  for (const [turn, at] of places(1000, zip.length).entries()) {
    const changed = Buffer.from(zip);
    changed[at] = (changed[at]! + 1 + turns[turn]!) % 256;
    const { disk } = diskInMemory(new Map([['bag.zip', changed]]));
    const { problems } = (await verifyArchive(disk, 'bag.zip'))!;
    const named = [...new Set(problems.map(({ file }) => file))];
    const path = inContent(at);
    if (path !== undefined) inFiles += 1;
    // Within a file, that file and nothing else; elsewhere it is the zip that is wrong, or a name in it.
    const right =
      path === undefined
        ? named.some((file) => file.startsWith('bag.zip'))
        : named.length === 1 && named[0] === `bag.zip/${path}`;
    if (!right) wrong.push(`${at} (${path}) → ${named.join(', ')}`);
  }
  expect(wrong).toEqual([]);
  expect(inFiles).toBeGreaterThan(300);
});

/** Which file's content is at a byte of the zip. */
function contentPlaces(zip: Buffer, files: ReadonlyMap<string, Uint8Array>) {
  const stretches = [...files]
    .filter(([, bytes]) => bytes.length > 0)
    .map(([path, bytes]) => ({
      path: path.slice('bag/'.length),
      from: zip.indexOf(bytes),
      bytes: bytes.length,
    }));
  return (at: number) => stretches.find(({ from, bytes }) => at >= from && at < from + bytes)?.path;
}

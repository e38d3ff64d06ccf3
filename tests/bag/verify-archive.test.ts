import { expect, test } from 'vitest';
import { verifyArchive } from '../../src/bag/check/verify-archive.js';
import { manifestText, readManifest, sha512Of } from '../../src/bag/bag-form.js';
import { diskInMemory } from './disk-in-memory.js';
import { smallBag } from './small-bag.js';

const text = (bytes: Uint8Array) => Buffer.from(bytes).toString('utf8');

async function said(memory: ReturnType<typeof diskInMemory>) {
  const { problems } = (await verifyArchive(memory.disk, 'bag'))!;
  return problems.map(({ id, file, message }) => `${id} ${file}: ${message}`);
}

/** A bag whose lists fit whatever was changed in it: what somebody who means harm would make. */
function listedAnew(memory: ReturnType<typeof diskInMemory>, manifest?: string) {
  const { files } = memory;
  const sums = (names: string[]) =>
    manifestText(new Map(names.map((path) => [path, sha512Of([files.get(`bag/${path}`)!])])));
  const under = [...files.keys()].map((path) => path.slice(4)).filter((path) => path.startsWith('data/'));
  files.set('bag/manifest-sha512.txt', Buffer.from(manifest ?? sums(under)));
  files.set(
    'bag/tagmanifest-sha512.txt',
    Buffer.from(sums(['README.txt', 'bag-info.txt', 'bagit.txt', 'manifest-sha512.txt'])),
  );
}

test('nothing there is distinguished from something wrong', async () => {
  const { disk } = smallBag();
  expect(await verifyArchive(disk, 'nowhere')).toBeUndefined();
});

test('a folder that is no bag is called one', async () => {
  const memory = diskInMemory(new Map([['bag/letter.txt', Buffer.from('Dear all')]]));
  expect(await said(memory)).toEqual([
    'archive/no-archive bag/bagit.txt: there is no such file, so this is not a bag',
  ]);
});

test('a file taken away, one put in and one renamed are each named', async () => {
  const gone = smallBag();
  gone.files.delete('bag/data/cases/quernholt/2086.md');
  expect(await said(gone)).toEqual([
    'archive/missing-file bag/data/cases/quernholt/2086.md: the file is missing; manifest-sha512.txt names it',
  ]);
  const more = smallBag();
  more.files.set('bag/data/Thumbs.db', Buffer.from('x'));
  more.files.set('bag/letter.txt', Buffer.from('x'));
  expect(await said(more)).toEqual([
    'archive/extra-file bag/letter.txt: the file is not part of the archive: no list names it',
    'archive/extra-file bag/data/Thumbs.db: the file is not part of the archive: manifest-sha512.txt does not name it',
  ]);
  for (const tag of [
    'README.txt',
    'bag-info.txt',
    'bagit.txt',
    'manifest-sha512.txt',
    'tagmanifest-sha512.txt',
  ]) {
    const without = smallBag();
    without.files.delete(`bag/${tag}`);
    expect(await said(without)).toEqual([
      `archive/missing-file bag/${tag}: the file is missing; every archive has one`,
    ]);
  }
});

test('folders deeper than any archive has are not followed', async () => {
  const memory = smallBag();
  memory.files.set(`bag/data/${'a/'.repeat(20)}x`, Buffer.from('x'));
  expect(await said(memory)).toEqual([
    expect.stringMatching(/^archive\/too-much bag\/data\/a.*folders lie more than 12 deep/),
  ]);
});

test('a link is named and not followed', async () => {
  const { files } = smallBag();
  const memory = diskInMemory(files, new Map([['bag/data/link', '/etc/passwd']]));
  expect((await said(memory))[0]).toMatch(/^archive\/link bag\/data\/link: this is a link/);
  expect(memory.opened.filter((path) => path.includes('link'))).toEqual([]);
});

test('counts that contradict lists which are otherwise whole are reported', async () => {
  const memory = smallBag();
  const info = text(memory.files.get('bag/bag-info.txt')!);
  memory.files.set('bag/bag-info.txt', Buffer.from(info.replace(/Oxum: \d+/, 'Oxum: 1')));
  listedAnew(memory);
  expect(await said(memory)).toEqual([
    expect.stringMatching(
      /^archive\/wrong-count bag\/bag-info.txt: Payload-Oxum says 1 bytes in 5 files, found \d+ bytes in 5 files$/,
    ),
  ]);
});

test.each<[string, (manifest: string) => string]>([
  ['a path that leads out', (m) => `${'0'.repeat(128)}  data/../../../etc/passwd\n${m}`],
  ['an absolute path', (m) => `${'0'.repeat(128)}  /etc/passwd\n${m}`],
  ['a path beside the payload', (m) => `${'0'.repeat(128)}  bagit.txt\n${m}`],
  ['capitals in a checksum', (m) => m.replace(/^[0-9a-f]+/, (sum) => sum.toUpperCase())],
  ['one space', (m) => m.replace('  ', ' ')],
  ['an asterisk', (m) => m.replace('  ', ' *')],
  ['Windows line ends', (m) => m.replaceAll('\n', '\r\n')],
  ['a blank line', (m) => `${m}\n`],
  ['a last line that does not end', (m) => m.slice(0, -1)],
  ['a line twice', (m) => m + m.split('\n').at(-2)! + '\n'],
  ['another order', (m) => m.split('\n').slice(0, -1).toReversed().join('\n') + '\n'],
])('a list of checksums with %s is not in our form, though everything else fits it', async (_, changed) => {
  const memory = smallBag();
  listedAnew(memory, changed(text(memory.files.get('bag/manifest-sha512.txt')!)));
  const lines = await said(memory);
  expect(lines.length).toBeGreaterThan(0);
  for (const line of lines) expect(line).toMatch(/^archive\/changed-list bag\/manifest-sha512.txt: /);
  expect(memory.opened.filter((path) => !path.startsWith('bag/'))).toEqual([]);
});

test('bags of other programs are distinguished from damaged ones: not in our form', async () => {
  const memory = smallBag();
  memory.files.set('bag/bagit.txt', Buffer.from('BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n'));
  memory.files.set('bag/bag-info.txt', Buffer.from('Contact-Name: somebody\n'));
  listedAnew(memory);
  expect(await said(memory)).toEqual([
    expect.stringMatching(/^archive\/not-our-form bag\/bagit.txt: .*not in the form growdown archive writes/),
    expect.stringMatching(/^archive\/not-our-form bag\/bag-info.txt: /),
  ]);
});

test('a list reads back as it was written', () => {
  const manifest = new Map([
    ['data/a b', 'a'.repeat(128)],
    ['data/c', '0'.repeat(128)],
  ]);
  expect(readManifest(manifestText(manifest))).toEqual({ entries: manifest });
});

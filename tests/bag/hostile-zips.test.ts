import { deflateRawSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { verifyArchive } from '../../src/bag/check/verify-archive.js';
import { diskInMemory } from './disk-in-memory.js';
import { type RawEnd, type RawEntry, rawZip } from './raw-zip.js';
import { smallBag, zipped } from './small-bag.js';

async function verify(zip: Buffer) {
  const memory = diskInMemory(new Map([['bag.zip', zip]]));
  const verified = (await verifyArchive(memory.disk, 'bag.zip'))!;
  expect(memory.written).toEqual([]);
  // Nothing but the zip itself was opened, whatever is named in it.
  expect([...new Set(memory.opened)]).toEqual(['bag.zip']);
  return verified.problems.map(({ id, file, message }) => `${id} ${file}: ${message}`);
}

const good = { name: 'bag/bagit.txt', content: 'x' };

test.each<[string, string | Buffer, RegExp]>([
  ['two full stops', 'bag/../../etc/passwd', /leads out of the archive/],
  ['two full stops at the front', '../bag/x', /leads out of the archive/],
  ['an absolute path', '/etc/passwd', /is absolute/],
  ['a drive', 'C:/Windows/x', /begins with a drive/],
  ['a drive without a slash', 'c:x', /begins with a drive/],
  ['a backslash', 'bag\\..\\x', /backslash/],
  ['a share', '\\\\host\\share', /backslash/],
  ['a NUL', 'bag/x\0.txt', /NUL/],
  ['a device', 'bag/data/NUL', /device/],
  ['a device with an ending', 'bag/data/com1.txt', /device/],
  ['letters beyond ASCII', 'bag/Böck', /plain ASCII/],
  ['a right-to-left mark', 'bag/\u202egpj.exe', /plain ASCII/],
  ['a line feed', 'bag/a\nb', /plain ASCII/],
  ['a per cent sign', 'bag/a%2e%2e', /holds `%`/],
  ['a stream of another file', 'bag/a:b', /holds `:`/],
  ['a full stop at the end', 'bag/data./x', /full stop/],
  ['an empty part', 'bag//x', /names nothing/],
  ['an empty name', '', /is empty/],
  ['a very long name', `bag/${'a'.repeat(300)}`, /longer than/],
])('a name with %s is refused', async (_, name, why) => {
  const said = await verify(rawZip([good, { name, content: 'x' }]));
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(/^archive\/unsafe-path /);
  expect(said[0]).toMatch(why);
});

const extra64 = Buffer.from('0100180000000000000000000000000000000000000000000000000000', 'hex').subarray(
  0,
  28,
);

test.each<[string, readonly RawEntry[], RawEnd, RegExp]>([
  [
    'a link',
    [good, { name: 'bag/link', content: '/etc/passwd', mode: 0o120_777 }],
    {},
    /archive\/link .*a link/,
  ],
  ['a device node', [good, { name: 'bag/dev', mode: 0o020_644 }], {}, /not an ordinary file/],
  ['a folder entry', [{ name: 'bag/' }, good], {}, /entry for a folder/],
  ['two files of one name', [good, good], {}, /two files of this name/],
  ['names that differ in capitals', [{ name: 'bag/A.txt' }, { name: 'bag/a.txt' }], {}, /one file or folder/],
  ['folders that differ in capitals', [{ name: 'bag/A/x' }, { name: 'bag/a/y' }], {}, /one file or folder/],
  ['a file that is a folder too', [{ name: 'bag/a' }, { name: 'bag/a/y' }], {}, /one file or folder/],
  ['a secret', [{ ...good, flags: 0x801 }], {}, /password-protected/],
  ['strong secrets', [{ ...good, flags: 0x841 }], {}, /strong encryption/],
  [
    'a bomb',
    [
      {
        name: 'bag/bomb',
        content: deflateRawSync(Buffer.alloc(1e6)).toString('latin1'),
        method: 8,
        bytes: 4e9,
        packedBytes: 1000,
      },
    ],
    {},
    /1000 bytes become 4000000000.*not unpacked/,
  ],
  ['a size beyond the zip', [{ ...good, bytes: 9e8 }], {}, /more than the zip has/],
  ['a size beyond any of ours', [{ ...good, bytes: 4e9 }], {}, /larger than 1 GB/],
  [
    'sizes that differ',
    [{ ...good, bytes: 1, packedBytes: 2 }],
    {},
    /takes 2 bytes in the zip and 1 outside/,
  ],
  ['files over each other', [good, { name: 'bag/x', content: 'x', headerAt: 0 }], {}, /expected at byte 44/],
  ['files out of order', [{ name: 'bag/b' }, { name: 'bag/a' }], {}, /order of names/],
  ['two folders', [{ name: 'bag/a' }, { name: 'bug/a' }], {}, /is not in the folder/],
  ['sizes told afterwards', [{ ...good, flags: 0x808 }], {}, /marks/],
  ['a remark on a file', [{ ...good, comment: Buffer.from('hidden') }], {}, /comment or extra/],
  [
    'a second name beside the first',
    [{ ...good, extra: Buffer.from('7570050001aabbccdd', 'hex') }],
    {},
    /comment or extra|directory cannot be read/,
  ],
  ['sizes of 64 bits', [{ ...good, extra: extra64 }], {}, /comment or extra/],
  ['too few files said', [good, { name: 'bag/x' }], { count: 1 }, /byte|no-archive|missing/],
  ['too many files said', [good], { count: 9 }, /directory cannot be read/],
  ['no files', [], {}, /holds no file/],
  ['another disk', [good], { disk: 1 }, /multi-disk/],
  ['bytes before', [good], { before: Buffer.from('#!/bin/sh\n') }, /directory cannot be read/],
  ['bytes after', [good], { after: Buffer.from('more') }, /directory cannot be read/],
])('%s is refused', async (_, entries, end, why) => {
  const said = await verify(rawZip(entries, end));
  expect(said.join('\n')).toMatch(why);
});

test('no zip at all is refused', async () => {
  expect((await verify(Buffer.alloc(0)))[0]).toMatch(
    /^archive\/zip-form bag.zip: .*directory cannot be read/,
  );
  expect((await verify(Buffer.from('a picture')))[0]).toMatch(/directory cannot be read/);
});

test('a zip of ours with anything in its slack is refused', async () => {
  const zip = await zipped(smallBag());
  const end = zip.length - 22;
  const remark = Buffer.concat([zip, Buffer.from('remark')]);
  remark.writeUInt16LE(6, end + 20);
  expect((await verify(remark)).join('\n')).toMatch(/the end of its directory|bytes follow/);
  const between = Buffer.concat([zip.subarray(0, end), Buffer.from('slack'), zip.subarray(end)]);
  expect((await verify(between)).join('\n')).toMatch(/the end of its directory|bytes follow/);
  const cut = zip.subarray(0, -1);
  expect((await verify(Buffer.from(cut)))[0]).toMatch(/directory cannot be read/);
});

import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, symlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, onTestFinished, test } from 'vitest';
import { bagInFolder } from '../../src/bag/bag-in-folder.js';
import { bagWriter } from '../../src/bag/bag-writer.js';
import { verifyArchive } from '../../src/bag/check/verify-archive.js';
import { zipOfBag } from '../../src/bag/zip/zip-of-bag.js';
import { nodeArchiveDisk } from '../../src/cli/node-disk.js';

const hasSha512sum = spawnSync('sha512sum', ['--version']).status === 0;
const hasUnzip = spawnSync('unzip', ['-v']).status === 0;

function inFolder() {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-archive-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return { folder, disk: nodeArchiveDisk(folder) };
}

const info = {
  sourceOrganization: 'Orla Venn',
  externalDescription: 'Quernholt',
  externalIdentifier: 'quernholt 2026-06-16',
  softwareAgent: 'growdown 0',
  baggingDate: '2026-06-16',
};

async function writeZip(folder: string, disk: ReturnType<typeof nodeArchiveDisk>) {
  const file = openSync(join(folder, 'bag.zip'), 'w');
  for await (const piece of zipOfBag(bagInFolder(disk, 'bag').files, 'bag')) writeSync(file, piece);
  closeSync(file);
}

test('a bag on a disk verifies, and a link put into it is named and not followed', async () => {
  const { folder, disk } = inFolder();
  const bag = bagWriter(disk, 'bag');
  bag.add('cases/My notes (1).md', 'text\n');
  bag.add('large.bin', [new Uint8Array(3_000_000), new Uint8Array(1)]);
  expect(bag.finish(info, 'Read me.\n')).toEqual({ bytes: 3_000_006, files: 2 });
  expect(await verifyArchive(disk, 'bag')).toEqual({ problems: [], files: 7 });
  if (hasSha512sum)
    for (const list of ['manifest-sha512.txt', 'tagmanifest-sha512.txt'])
      expect(
        execFileSync('sha512sum', ['--strict', '-c', list], { cwd: join(folder, 'bag'), encoding: 'utf8' }),
      ).not.toMatch(/FAILED/);
  try {
    symlinkSync('/etc', join(folder, 'bag/data/outside'));
  } catch {
    return; // Windows lets only some users make links.
  }
  const { problems } = (await verifyArchive(disk, 'bag'))!;
  expect(problems.map(({ id, file }) => `${id} ${file}`)).toEqual(['archive/link bag/data/outside']);
});

test('the zip on a disk verifies, and another program unpacks it to the same bag', async () => {
  const { folder, disk } = inFolder();
  const bag = bagWriter(disk, 'bag');
  bag.add('cases/2086.md', 'text\n');
  bag.add('empty.txt', '');
  bag.finish(info, 'Read me.\n');
  await writeZip(folder, disk);
  expect(await verifyArchive(disk, 'bag.zip')).toEqual({ problems: [], files: 7 });
  if (hasUnzip) {
    execFileSync('unzip', ['-q', 'bag.zip', '-d', 'elsewhere'], { cwd: folder });
    expect(await verifyArchive(disk, 'elsewhere/bag')).toEqual({ problems: [], files: 7 });
  }
});

test('memory stays flat: a zip of 80 MB is written and verified within far less', async () => {
  const { folder, disk } = inFolder();
  const piece = new Uint8Array(8_000_000).fill(7);
  const bag = bagWriter(disk, 'bag');
  for (let n = 0; n < 10; n += 1) bag.add(`photos/${n}.jpg`, [piece]);
  bag.finish(info, 'Read me.\n');
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  let [highest, since] = [0, 0];
  const before = process.memoryUsage().arrayBuffers;
  const file = openSync(join(folder, 'bag.zip'), 'w');
  for await (const made of zipOfBag(bagInFolder(disk, 'bag').files, 'bag')) {
    writeSync(file, made);
    since += made.length;
    if (since < 20_000_000) continue;
    since = 0;
    collect();
    collect();
    highest = Math.max(highest, process.memoryUsage().arrayBuffers - before);
  }
  closeSync(file);
  expect(highest).toBeLessThan(50_000_000);
  expect((await verifyArchive(disk, 'bag.zip'))!.problems).toEqual([]);
});

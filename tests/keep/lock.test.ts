import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../src/cli/node-disk.js';
import type { Disk } from '../../src/keep/disk/disk.js';
import { takeLock } from '../../src/keep/disk/lock.js';

/** A disk whose clock goes on by what is waited, so that waiting takes no time. */
function diskIn(): { disk: Disk; path: string; folder: string } {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const real = nodeDisk(folder, nodeCaseFiles);
  let now = 1_000_000_000;
  const disk: Disk = { ...real, now: () => now, wait: async (ms) => void (now += ms) };
  return { disk, path: join(folder, 'lock'), folder };
}

function left(path: string, over: Readonly<Record<string, unknown>>): void {
  writeFileSync(
    path,
    JSON.stringify({ pid: process.pid, host: 'elsewhere', since: 1_000_000_000, token: 'other', ...over }),
  );
}

test('a lock is held until it is let go, and nothing stays behind', async () => {
  const { disk, path, folder } = diskIn();
  const lock = await takeLock(disk, path);
  expect(lock.outcome === 'locked' && lock.holds()).toBe(true);
  expect(await takeLock(disk, path)).toMatchObject({
    outcome: 'busy',
    message: expect.stringContaining('nothing was written'),
  });
  if (lock.outcome === 'locked') lock.release();
  expect(readdirSync(folder)).toEqual([]);
});

test.each([
  [
    'whose program no longer runs on this machine',
    (disk: Disk) => ({ host: disk.process.host, pid: 999_999_99 }),
  ],
  [
    'with the number of this very program, which holds none',
    (disk: Disk) => ({ host: disk.process.host, pid: process.pid }),
  ],
  ['older than ten minutes, wherever it is from', () => ({ since: 1_000_000_000 - 11 * 60_000 })],
  ['dated years ahead, wherever it is from', () => ({ since: 9e15 })],
])('a lock %s is taken over, and that is reported', async (_, over) => {
  const { disk, path, folder } = diskIn();
  left(path, over(disk));
  const lock = await takeLock(disk, path);
  expect(lock).toMatchObject({ outcome: 'locked', told: [expect.stringContaining('taken over')] });
  expect(readdirSync(folder)).toEqual(['lock']);
});

test.each([
  ['of a program that runs', (disk: Disk) => ({ host: disk.process.host, pid: process.ppid })],
  ['of another machine, young', () => ({ pid: 999_999_99 })],
])('a lock %s is not taken', async (_, over) => {
  const { disk, path } = diskIn();
  left(path, over(disk));
  expect((await takeLock(disk, path)).outcome).toBe('busy');
  expect(readFileSync(path, 'utf8')).toContain('"other"');
});

test.each(['', '{"pid":'])('a lock left as %j is taken over within a second', async (text) => {
  const { disk, path, folder } = diskIn();
  writeFileSync(path, text);
  const begun = disk.now();
  expect((await takeLock(disk, path)).outcome).toBe('locked');
  expect(disk.now() - begun).toBeLessThan(1000);
  expect(readdirSync(folder)).toEqual(['lock']);
});

test('a taking over that was killed is no bar: what it had moved aside is swept', async () => {
  const { disk, path, folder } = diskIn();
  const other = 'f'.repeat(12);
  const ours = /-[0-9a-f]{8}-/.exec(disk.token())![0];
  writeFileSync(join(folder, `.lock.99999999${ours}${other}.tmp`), '{}');
  writeFileSync(join(folder, '.lock.mine.tmp'), 'not of this program’s making');
  left(path, { host: disk.process.host, pid: 99_999_999 });
  expect((await takeLock(disk, path)).outcome).toBe('locked');
  expect(readdirSync(folder).toSorted()).toEqual(['.lock.mine.tmp', 'lock']);
});

test('of two that find a lock stale, the one that moves the other’s new lock aside puts it back', async () => {
  const { disk, path, folder } = diskIn();
  left(path, { since: 0 });
  let first = true;
  const late: Disk = {
    ...disk,
    rename: (from, to) => {
      if (first) left(path, { since: disk.now(), token: 'faster' });
      first = false;
      disk.rename(from, to);
    },
  };
  expect((await takeLock(late, path)).outcome).toBe('busy');
  expect(readFileSync(path, 'utf8')).toContain('"faster"');
  expect(readdirSync(folder)).toEqual(['lock']);
});

test('a holder whose lock was taken over knows, and does not let go of the other', async () => {
  const { disk, path } = diskIn();
  const lock = await takeLock(disk, path);
  left(path, {});
  if (lock.outcome !== 'locked') throw new Error('not locked');
  expect(lock.holds()).toBe(false);
  lock.release();
  expect(readFileSync(path, 'utf8')).toContain('"other"');
});

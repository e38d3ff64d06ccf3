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
  ['older than ten minutes, wherever it is from', () => ({ since: 1_000_000_000 - 11 * 60_000 })],
])('a lock %s is taken over, and that is told', async (_, over) => {
  const { disk, path, folder } = diskIn();
  left(path, over(disk));
  const lock = await takeLock(disk, path);
  expect(lock).toMatchObject({ outcome: 'locked', told: [expect.stringContaining('taken over')] });
  expect(readdirSync(folder)).toEqual(['lock']);
});

test.each([
  ['of a program that runs', (disk: Disk) => ({ host: disk.process.host, pid: process.pid })],
  ['of another machine, young', () => ({ pid: 999_999_99 })],
])('a lock %s is not taken', async (_, over) => {
  const { disk, path } = diskIn();
  left(path, over(disk));
  expect((await takeLock(disk, path)).outcome).toBe('busy');
  expect(readFileSync(path, 'utf8')).toContain('"other"');
});

test('a lock left half written is taken over after a while', async () => {
  const { disk, path } = diskIn();
  writeFileSync(path, '{"pid":');
  expect((await takeLock(disk, path)).outcome).toBe('locked');
});

test('one that takes a stale lock over while somebody else does leaves it to him', async () => {
  const { disk, path } = diskIn();
  left(path, { since: 0 });
  writeFileSync(`${path}.taking`, '');
  expect((await takeLock(disk, path)).outcome).toBe('busy');
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

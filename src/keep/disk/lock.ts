import { z } from 'zod';
import type { Disk } from './disk.js';
import { terminal } from '../../problem/message.js';
import type { Values } from '../../reference/words.js';
import type { Cannot } from '../change.js';

/** A lock older than this is nobody's: the work done under one takes seconds. So is one from further ahead than clocks differ. */
const staleAfter = 10 * 60_000;
const clocksDiffer = 2 * 60_000;
/** A lock is written at once: one that cannot be read for so long was left by a program that ended meanwhile. */
const halfWritten = 500;
/** How long to wait for another program, and how often to look. */
const patience = 20_000;
const look = 25;

const lockText = z.object({ pid: z.number(), host: z.string(), since: z.number(), token: z.string() });
type LockText = z.infer<typeof lockText>;

export interface Lock {
  /** Whether it is still ours: another may take over a lock that was held too long. */
  readonly holds: () => boolean;
  /** One that cannot be taken away stays: its program has ended by the time another asks. */
  readonly release: () => void;
  /** Said to the user: a lock left by a program that ended in the middle of its work was taken over. */
  readonly told: readonly string[];
}
type Locked =
  ({ readonly outcome: 'locked' } & Lock) | { readonly outcome: 'busy'; readonly message: string };

/** Those this very program holds: another with its number was left by one that has ended. */
const held = new Set<string>();

/**
 * Takes the lock file at a path, so that of two programs one writes and the other waits.
 *
 * A lock names its owner and its moment, and both are looked at: it is stale where its program no longer runs (on this
 * computer), where it is older than ten minutes or dated more than two ahead, and where it cannot be read for half a
 * second. A stale lock is moved aside and looked at once more there: where it is another than the one found stale,
 * somebody has taken over in that instant, and his is put back.
 *
 * Error:   what the file system throws, where the folder cannot be written
 * Checked: tests/keep/lock.test.ts, tests/keep/two-programs.test.ts
 */
export async function takeLock(disk: Disk, path: string): Promise<Locked> {
  const { pid, host } = disk.process;
  const token = disk.token();
  const told: string[] = [];
  const begun = disk.now();
  let unreadableSince: number | undefined;
  while (!created(disk, path, { pid, host, since: disk.now(), token })) {
    const other = readLock(disk, path);
    const now = disk.now();
    unreadableSince = other === 'unreadable' ? (unreadableSince ?? now) : undefined;
    const isStale =
      typeof other === 'object'
        ? isLeft(disk, other, now)
        : unreadableSince !== undefined && now - unreadableSince > halfWritten;
    if (isStale && takenAway(disk, path, other))
      told.push(inWords('lock-of-known', 'lock-left', other, { path }));
    else if (now - begun > patience) {
      const said = { seconds: patience / 1000, path };
      return { outcome: 'busy', message: inWords('busy-known', 'busy', other, said) };
    } else if (other !== undefined) await disk.wait(look + (begun % look));
  }
  held.add(token);
  const holds = (): boolean => {
    const now = readLock(disk, path);
    return typeof now === 'object' && now.token === token;
  };
  const release = (): void => {
    held.delete(token);
    try {
      if (holds()) disk.remove(path);
    } catch {
      return;
    }
  };
  return { outcome: 'locked', holds, release, told };
}

/** Does something while the locks of these folders are held; they are taken in the order given and let go in any case. */
export async function underLocks<T>(
  disk: Disk,
  folders: readonly string[],
  work: (locks: readonly Lock[]) => T,
): Promise<T | Cannot> {
  const locks: Lock[] = [];
  try {
    for (const folder of new Set(folders)) {
      const lock = await takeLock(disk, `${folder}/.growdown/lock`);
      if (lock.outcome === 'busy') return { outcome: 'cannot', message: lock.message };
      locks.push(lock);
    }
    return work(locks);
  } finally {
    for (const lock of locks.toReversed()) lock.release();
  }
}

function created(disk: Disk, path: string, lock: LockText): boolean {
  try {
    disk.create(path, `${JSON.stringify(lock)}\n`);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

/** Undefined where none is there any more; `unreadable` where it is being written, or was left half written. */
type Found = LockText | 'unreadable' | undefined;

function readLock(disk: Disk, path: string): Found {
  try {
    const text = new TextDecoder().decode(disk.files.read(path));
    return lockText.parse(JSON.parse(text));
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? undefined : 'unreadable';
  }
}

function isSame(one: Found, other: Found): boolean {
  return typeof one === 'object' && typeof other === 'object' ? one.token === other.token : one === other;
}

function isLeft({ process: own }: Disk, { pid, host, since, token }: LockText, now: number): boolean {
  const gone = host === own.host && (pid === own.pid ? !held.has(token) : !own.isRunning(pid));
  return gone || now - since > staleAfter || since - now > clocksDiffer;
}

/** Moved aside, and looked at there: of two that find it stale only one has it. */
function takenAway(disk: Disk, path: string, found: Found): boolean {
  if (!isSame(readLock(disk, path), found)) return false;
  const aside = `${path.slice(0, path.lastIndexOf('/'))}/.lock.${disk.token()}.tmp`;
  try {
    disk.rename(path, aside);
  } catch (error) {
    if (['ENOENT', 'EBUSY', 'EPERM'].includes(codeOf(error) ?? '')) return false;
    throw error;
  }
  const moved = readLock(disk, aside);
  const mine = isSame(moved, found);
  if (!mine && typeof moved === 'object') created(disk, path, moved);
  disk.remove(aside);
  return mine;
}

/** Said of a lock whose program is known, or of one that cannot be read. */
function inWords(known: string, unknown: string, other: Found, said: Values): string {
  return typeof other === 'object'
    ? terminal(`keep.disk.${known}`, { ...said, number: other.pid, host: other.host })
    : terminal(`keep.disk.${unknown}`, said);
}

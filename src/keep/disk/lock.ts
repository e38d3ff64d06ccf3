import { z } from 'zod';
import type { Disk } from './disk.js';

/** A lock older than this is nobody's: the work done under one takes seconds. */
const staleAfter = 10 * 60_000;
/** How long to wait for another program, and how often to look. */
const patience = 20_000;
const look = 25;

const lockText = z.object({ pid: z.number(), host: z.string(), since: z.number(), token: z.string() });
type LockText = z.infer<typeof lockText>;

export type Locked =
  | {
      readonly outcome: 'locked';
      /** Whether it is still ours: another may take over a lock that was held too long. */
      readonly holds: () => boolean;
      readonly release: () => void;
      /** Said to the user: a lock left by a program that ended in the middle of its work was taken over. */
      readonly told: readonly string[];
    }
  | { readonly outcome: 'busy'; readonly message: string };

/**
 * Takes the lock file at a path, so that of two programs one writes and the other waits.
 *
 * A lock whose program no longer runs (on this machine) or that is older than ten minutes is stale. Taking it over is
 * itself guarded by a second file made for that moment, so that of two that find it stale only one takes it away; and
 * it is looked at again under that guard.
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
  for (;;) {
    const mine: LockText = { pid, host, since: disk.now(), token };
    if (created(disk, path, `${JSON.stringify(mine)}\n`)) break;
    const other = readLock(disk, path);
    const now = disk.now();
    unreadableSince = other === 'unreadable' ? (unreadableSince ?? now) : undefined;
    const stale =
      other === 'unreadable' ? now - (unreadableSince ?? now) > 5000 : other && isStale(disk, other, now);
    if (stale === true && takenAway(disk, path, other)) told.push(takenOver(path, other));
    else if (now - begun > patience) return { outcome: 'busy', message: busy(path, other) };
    else if (other !== undefined)
      await disk.wait(look + (Number.parseInt(token.slice(0, 4), 16) % look || 0));
  }
  const holds = (): boolean => {
    const now = readLock(disk, path);
    return typeof now === 'object' && now.token === token;
  };
  return {
    outcome: 'locked',
    holds,
    release: () => {
      if (holds()) disk.remove(path);
    },
    told,
  };
}

function created(disk: Disk, path: string, text: string): boolean {
  try {
    disk.create(path, text);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

/** Undefined where none is there any more; `unreadable` where it is being written, or was left half written. */
function readLock(disk: Disk, path: string): LockText | 'unreadable' | undefined {
  try {
    const text = new TextDecoder().decode(disk.files.read(path));
    return lockText.parse(JSON.parse(text));
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? undefined : 'unreadable';
  }
}

function isStale(disk: Disk, { pid, host, since }: LockText, now: number): boolean {
  const gone = host === disk.process.host && !disk.process.isRunning(pid);
  return gone || now - since > staleAfter;
}

/** Under a guard of its own, and only while it is still the very lock that was found stale. */
function takenAway(disk: Disk, path: string, found: LockText | 'unreadable' | undefined): boolean {
  const guard = `${path}.taking`;
  if (!created(disk, guard, '')) return false;
  try {
    const now = readLock(disk, path);
    const same =
      typeof now === 'object' && typeof found === 'object' ? now.token === found.token : now === found;
    if (same) disk.remove(path);
    return same;
  } finally {
    disk.remove(guard);
  }
}

function takenOver(path: string, other: LockText | 'unreadable' | undefined): string {
  const whose = typeof other === 'object' ? ` (number ${other.pid} on ${other.host})` : '';
  return `a program${whose} ended in the middle of its work and left the lock ${path}: it was taken over. Look at the last entry with \`growdown check\``;
}

function busy(path: string, other: LockText | 'unreadable' | undefined): string {
  const whose = typeof other === 'object' ? `number ${other.pid} on ${other.host}` : 'another program';
  return `${whose} is writing in this folder and has not let go for ${patience / 1000} seconds; nothing was written. Wait until it has ended, then do this again; if none is running, take away ${path} and, where it stands, ${path}.taking`;
}

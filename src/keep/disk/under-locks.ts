import type { Disk } from './disk.js';
import { type Locked, takeLock } from './lock.js';

export type Lock = Extract<Locked, { outcome: 'locked' }>;

/** Does something while the locks of these folders are held; they are taken in the order given and let go in any case. */
export async function underLocks<T>(
  disk: Disk,
  folders: readonly string[],
  work: (locks: readonly Lock[]) => T,
): Promise<T | { readonly outcome: 'cannot'; readonly message: string }> {
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

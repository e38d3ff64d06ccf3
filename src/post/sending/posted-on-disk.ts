import { type Posted, type PostedLine, postedLine, readPosted } from '../posted.js';
import type { Effects } from '../../run/effects.js';
import { NoLetter } from './post-run.js';

/** What the program remembers of one farm's mail. */
export interface PostedOnDisk {
  readonly path: string;
  readonly read: () => Posted;
  /** Adds a line and returns when it is on the disk. Error: what the file system throws */
  readonly add: (line: PostedLine) => void;
  /** Takes the lock of this farm's mail, does the work, lets go. */
  readonly alone: <T>(work: () => Promise<T>) => Promise<T>;
}

/**
 * A farm's `posted.jsonl` and its lock, which is not that of its case files: sending takes longer than those may be held.
 *
 * Error: `NoLetter` where another program holds the lock; what the file system throws
 */
export function postedOnDisk({ disk }: Effects, casesFolder: string, slug: string): PostedOnDisk {
  const folder = `${casesFolder}/${slug}/.growdown`;
  const path = `${folder}/posted.jsonl`;
  return {
    path,
    read: () =>
      readPosted(disk.files.look(path) === undefined ? '' : new TextDecoder().decode(disk.files.read(path))),
    add: (line) => disk.append(path, postedLine(line)),
    alone: async (work) => {
      const { takeLock } = await import('../../keep/disk/lock.js');
      const lock = await takeLock(disk, `${folder}/post.lock`).catch((error: unknown) => {
        throw cannotRemember(path, error);
      });
      if (lock.outcome === 'busy') throw new NoLetter('locked', lock.message);
      try {
        return await work();
      } finally {
        lock.release();
      }
    },
  };
}

/** A place where nothing can be remembered: then nothing is sent, since it could go twice. Any other error stays what it is. */
function cannotRemember(path: string, error: unknown): unknown {
  const { code } = error as NodeJS.ErrnoException;
  return code === undefined
    ? error
    : new NoLetter(
        'cannot-remember',
        `${path} cannot be written (${code}), so nothing was sent: what went when is remembered there. Make room, or see whether the folder is yours to write`,
      );
}

/** Adds a line before anything else is done. Error: NoLetter where it cannot be written */
export function note(posted: PostedOnDisk, line: PostedLine): void {
  try {
    posted.add(line);
  } catch (error) {
    throw cannotRemember(posted.path, error);
  }
}

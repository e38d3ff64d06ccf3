import { closeSync, fsyncSync, openSync } from 'node:fs';

/** What systems say that sync no folders: Windows, and shares over a network. */
const cannotSync = new Set(['EACCES', 'EBADF', 'EINVAL', 'EISDIR', 'ENOTSUP', 'EPERM']);

/** Syncs a folder, so that the name of a file new or moved in it outlives a power cut; where a system cannot, it is left. */
export function syncFolder(folder: string): void {
  let opened: number | undefined;
  try {
    opened = openSync(folder, 'r');
    fsyncSync(opened);
  } catch (error) {
    if (!cannotSync.has((error as NodeJS.ErrnoException).code ?? '')) throw error;
  } finally {
    if (opened !== undefined) closeSync(opened);
  }
}

import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { basename, dirname, join } from 'node:path';
import { syncFolder } from './sync-folder.js';

/**
 * Writes a file whole: into a new file beside it, synced, then moved over the old one, so that a reader
 * or a power cut meets either the old file or the new one, never half of one.
 *
 * Error: what the file system throws; the old file is then untouched and the new one gone.
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const folder = dirname(path);
  makeFolder(folder);
  const beside = join(folder, `.${basename(path)}.${randomUUID()}.tmp`);
  try {
    // A file somebody has opened to others, or closed to them, stays so.
    const mode = statSync(path, { throwIfNoEntry: false })?.mode;
    const file = openSync(beside, 'wx', mode === undefined ? 0o666 : mode & 0o777);
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, path);
    syncFolder(folder);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/**
 * Makes a folder and those above it, one at a time: where a file system refuses new folders, the recursive way of
 * Node 20 never returns.
 */
export function makeFolder(folder: string): void {
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) return;
  const above = dirname(folder);
  if (above !== folder) makeFolder(above);
  try {
    mkdirSync(folder);
    syncFolder(above);
  } catch (error) {
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) throw error;
  }
}

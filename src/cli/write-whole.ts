import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { basename, dirname, join } from 'node:path';

/**
 * Writes a file whole: into a new file beside it, synced, then moved over the old one, so that a reader
 * or a power cut meets either the old file or the new one, never half of one.
 *
 * Error: what the file system throws; the old file is then untouched and the new one gone.
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const folder = dirname(path);
  mkdirSync(folder, { recursive: true });
  const beside = join(folder, `.${basename(path)}.${randomUUID()}.tmp`);
  try {
    const file = openSync(beside, 'wx');
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

import { closeSync, fstatSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { syncFolder } from './sync-folder.js';
import { makeFolder } from './write-whole.js';

/**
 * Adds lines to the end of a file; file and folder are synced when it returns. Where a program ended in the middle of
 * a line, that line is ended first, so that it spoils no other.
 *
 * Error: what the file system throws; the lines may then be there in part, as a line cut short
 */
export function appendLines(path: string, lines: string): void {
  makeFolder(dirname(path));
  const file = openSync(path, 'a+');
  try {
    const bytes = Buffer.from(isCutShort(file) ? `\n${lines}` : lines, 'utf8');
    for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  syncFolder(dirname(path));
}

function isCutShort(file: number): boolean {
  const { size } = fstatSync(file);
  const last = Buffer.alloc(1);
  return size > 0 && readSync(file, last, 0, 1, size - 1) === 1 && last[0] !== 0x0a;
}

import { randomUUID } from 'node:crypto';
import { closeSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { dirname, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { CaseFiles } from '../casefile/case-files.js';
import type { Disk } from '../keep/disk/disk.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { appendLines } from './append-lines.js';
import { localToday } from './local-today.js';
import { makeFolder, writeWhole } from './write-whole.js';

/** This computer's disk; relative paths start from `folder`, as those of `files` do. */
export function nodeDisk(folder: string, files: CaseFiles, today: () => CalendarDay = localToday): Disk {
  const at = (path: string): string => resolve(folder, path);
  return {
    files,
    replace: (path, content) => writeWhole(at(path), content),
    create: (path, content) => {
      makeFolder(dirname(at(path)));
      const file = openSync(at(path), 'wx');
      try {
        writeSync(file, content);
        fsyncSync(file);
      } finally {
        closeSync(file);
      }
    },
    append: (path, lines) => appendLines(at(path), lines),
    makeFolder: (path) => makeFolder(at(path)),
    remove: (path) => rmSync(at(path), { force: true }),
    process: { pid: process.pid, host: hostname(), isRunning },
    now: Date.now,
    today,
    wait: (milliseconds) => setTimeout(milliseconds),
    token: randomUUID,
  };
}

/** A program of another user runs too: asking it then fails, with another word than for one that is gone. */
function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

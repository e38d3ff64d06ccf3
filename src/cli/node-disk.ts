import { type CalendarDay, calendarDay, firstCalendarDay, lastCalendarDay } from '../record/calendar-day.js';
import { WrongUse } from '../run/exit-code.js';
import { createHash, randomUUID } from 'node:crypto';
import * as fs from 'node:fs';
import { closeSync, fstatSync, lstatSync, openSync, readSync, type Stats } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { CaseFiles } from '../casefile/source-text.js';
import type { Disk } from '../keep/disk/disk.js';
import type { ArchiveDisk, Standing } from '../bag/bag-form.js';
import { nodeCaseFiles } from '../casefile/node-case-files.js';
import { terminal } from '../problem/message.js';

/**
 * The calendar day in this machine's time zone, not in UTC.
 *
 * Error: WrongUse where the clock says a day no file may hold: what was written on it, nobody could read
 */
export function localToday(now = new Date()): CalendarDay {
  const two = (n: number) => String(n).padStart(2, '0');
  const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  if (calendarDay.safeParse(day).success) return day;
  throw new WrongUse(terminal('clock.no-day', { day, first: firstCalendarDay, last: lastCalendarDay }));
}

/** Every call by which this program changes a disk, case files and archives alike: a test that kills or fails it hooks in here. */
export interface DiskCalls {
  readonly open: (path: string, flags: 'wx' | 'a+' | 'r', mode?: number) => number;
  /** From a place in the bytes on; how many were written. */
  readonly write: (file: number, bytes: Uint8Array, from: number) => number;
  readonly sync: (file: number) => void;
  readonly close: (file: number) => void;
  readonly rename: (from: string, to: string) => void;
  /** A file, or a folder with all in it; one that is not there is no trouble. */
  readonly remove: (path: string) => void;
  readonly makeFolder: (path: string) => void;
  /** An empty one. */
  readonly removeFolder: (path: string) => void;
}

export const nodeCalls: DiskCalls = {
  open: fs.openSync,
  write: fs.writeSync,
  sync: fs.fsyncSync,
  close: fs.closeSync,
  rename: fs.renameSync,
  remove: (path) => fs.rmSync(path, { recursive: true, force: true }),
  makeFolder: (path) => fs.mkdirSync(path),
  removeFolder: fs.rmdirSync,
};

export interface Machine {
  readonly calls: DiskCalls;
  readonly process: Disk['process'];
}
export const thisMachine: Machine = {
  calls: nodeCalls,
  process: { pid: process.pid, host: hostname(), isRunning },
};

/** This computer's disk; relative paths start from `folder`, as those of `files` do. */
export function nodeDisk(
  folder: string,
  files: CaseFiles,
  today: () => CalendarDay = () => localToday(),
  machine: Machine = thisMachine,
): Disk {
  const { calls } = machine;
  const at = (path: string): string => resolve(folder, path);
  const swept = new Set<string>();
  /** The path, its folder there and free of what killed programs left in it. */
  const into = (path: string): string => {
    const place = at(path);
    const above = dirname(place);
    makeFolder(above, calls);
    if (!swept.has(above)) sweep(above, machine);
    swept.add(above);
    return place;
  };
  return {
    files,
    replace: (path, content) => writeWhole(into(path), bytesOf(content), machine),
    create: (path, content) => createFile(into(path), bytesOf(content), calls),
    append: (path, lines) => appendLines(into(path), lines, calls),
    makeFolder: (path) => makeFolder(at(path), calls),
    remove: (path) => {
      if (!fs.existsSync(dirname(at(path)))) return;
      calls.remove(into(path));
      syncFolder(dirname(at(path)), calls);
    },
    removeFolder: (path) => {
      try {
        calls.removeFolder(at(path));
      } catch (error) {
        if (!['ENOENT', 'ENOTEMPTY', 'EEXIST'].includes(codeOf(error))) throw error;
      }
    },
    rename: (from, to) => calls.rename(at(from), at(to)),
    sweep: (path) => sweep(at(path), machine),
    process: machine.process,
    now: Date.now,
    today,
    wait: (milliseconds) => setTimeout(milliseconds),
    token: () => ownWord(machine),
  };
}

const bytesOf = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? Buffer.from(content, 'utf8') : content;

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? '';

/**
 * Writes a file whole: into a new file beside it, synced, then moved over the old one, so that a reader
 * or a power cut meets either the old file or the new one, never half of one.
 *
 * Error:   what the file system throws; the old file is then untouched, unless only the syncing of the folder failed
 * Checked: tests/cli/node-disk.test.ts
 */
function writeWhole(path: string, bytes: Uint8Array, machine: Machine): void {
  const { calls } = machine;
  const folder = dirname(path);
  const beside = join(folder, `.${basename(path)}.${ownWord(machine)}.tmp`);
  try {
    // A file somebody has opened to others, or closed to them, stays so.
    const mode = fs.statSync(path, { throwIfNoEntry: false })?.mode;
    const file = calls.open(beside, 'wx', mode === undefined ? 0o666 : mode & 0o777);
    writeAndSync(file, bytes, calls);
    calls.rename(beside, path);
  } catch (error) {
    removed(beside, calls);
    throw error;
  }
  syncFolder(folder, calls);
}

/** One that could not be written whole is taken away. */
function createFile(path: string, bytes: Uint8Array, calls: DiskCalls): void {
  const file = calls.open(path, 'wx');
  try {
    writeAndSync(file, bytes, calls);
  } catch (error) {
    removed(path, calls);
    throw error;
  }
}

/** Adds lines to the end of a file. Where a program ended in the middle of a line, that line is ended first, so that it spoils no other. */
function appendLines(path: string, lines: string, calls: DiskCalls): void {
  const file = calls.open(path, 'a+');
  let text = lines;
  try {
    const { size } = fs.fstatSync(file);
    const last = Buffer.alloc(1);
    if (size > 0 && fs.readSync(file, last, 0, 1, size - 1) === 1 && last[0] !== 0x0a) text = `\n${lines}`;
  } catch (error) {
    calls.close(file);
    throw error;
  }
  writeAndSync(file, bytesOf(text), calls);
  syncFolder(dirname(path), calls);
}

function writeAndSync(file: number, bytes: Uint8Array, calls: DiskCalls): void {
  try {
    for (let written = 0; written < bytes.length;) written += calls.write(file, bytes, written);
    calls.sync(file);
  } finally {
    calls.close(file);
  }
}

/** After a failure: what cannot be taken away is swept by the next that writes there. */
function removed(path: string, calls: DiskCalls): void {
  try {
    calls.remove(path);
  } catch {
    return;
  }
}

/**
 * Makes a folder and those above it, one at a time: where a file system refuses new folders, the recursive way of
 * Node 20 never returns.
 */
function makeFolder(folder: string, calls: DiskCalls): void {
  if (fs.statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) return;
  const above = dirname(folder);
  if (above !== folder) makeFolder(above, calls);
  try {
    calls.makeFolder(folder);
    syncFolder(above, calls);
  } catch (error) {
    if (fs.statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) throw error;
  }
}

/** What systems say that sync no folders: Windows, and shares over a network. */
const cannotSync = new Set(['EACCES', 'EBADF', 'EINVAL', 'EISDIR', 'ENOTSUP', 'EPERM']);

/** Syncs a folder, so that the name of a file new or moved in it outlives a power cut; where a system cannot, it is left. */
function syncFolder(folder: string, calls: DiskCalls): void {
  let opened: number | undefined;
  try {
    opened = calls.open(folder, 'r');
    calls.sync(opened);
  } catch (error) {
    if (!cannotSync.has(codeOf(error))) throw error;
  } finally {
    if (opened !== undefined) calls.close(opened);
  }
}

/** A word nobody else has, which says whose it is: number of the program, computer, chance. */
export function ownWord({ process: { pid, host } }: Machine): string {
  return `${pid}-${shortHost(host)}-${randomUUID().replaceAll('-', '').slice(0, 12)}`;
}

const shortHost = (host: string): string => createHash('sha256').update(host).digest('hex').slice(0, 8);

/** What is written beside its place on another computer, or by a program that cannot be asked, is left alone this long. */
const hour = 3_600_000;
/** Names that did not say whose they are. */
const ofEarlierVersions = /^lock\.taking$|^\..+\.[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\.tmp$/;

/**
 * Takes away what programs that have ended in the middle of their work left in a folder: files, and of archives
 * folders, that bear a word of `ownWord`. Nothing else is touched, and one that cannot be taken away stays.
 *
 * Checked: tests/cli/node-disk.test.ts
 */
function sweep(folder: string, { calls, process: { pid, host, isRunning: runs } }: Machine): void {
  let names: readonly string[] = [];
  try {
    names = fs.readdirSync(folder);
  } catch {
    return;
  }
  for (const name of names) {
    const path = join(folder, name);
    const isOld = (): boolean =>
      Math.abs(Date.now() - (fs.lstatSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0)) > hour;
    if (ofEarlierVersions.test(name) && isOld()) removed(path, calls);
    const [, whose = '', where = ''] = /\.(\d+)-([0-9a-f]{8})-[0-9a-f]{12}\.tmp(?:\.zip)?$/.exec(name) ?? [];
    if (whose === '') continue;
    const isLeft = where === shortHost(host) ? Number(whose) === pid || !runs(Number(whose)) : isOld();
    if (isLeft) removed(path, calls);
  }
}

/** A program of another user runs too: asking it then fails, with another word than for one that is gone. */
function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return codeOf(error) === 'EPERM';
  }
}

/** This computer's disk; relative paths start from `folder`. */
export function nodeArchiveDisk(folder: string, machine: Machine = thisMachine): ArchiveDisk {
  const { calls } = machine;
  const at = (path: string): string => resolve(folder, path);
  return {
    look: (path) => {
      const stats = lstatSync(at(path), { throwIfNoEntry: false });
      return stats && kindOf(stats);
    },
    list: (path) => nodeCaseFiles.list(at(path)),
    open: (path) => {
      const file = openSync(at(path), 'r');
      return {
        bytes: fstatSync(file).size,
        readAt: (offset, length) => {
          const bytes = Buffer.allocUnsafe(length);
          let read = 0;
          for (let some = 1; some > 0 && read < length; read += some)
            some = readSync(file, bytes, read, length - read, offset + read);
          return bytes.subarray(0, read);
        },
        close: () => closeSync(file),
      };
    },
    create: (path) => {
      makeFolder(dirname(at(path)), calls);
      const file = calls.open(at(path), 'wx');
      return {
        write: (bytes) => {
          for (let written = 0; written < bytes.length;) written += calls.write(file, bytes, written);
        },
        close: () => {
          try {
            calls.sync(file);
          } finally {
            calls.close(file);
          }
        },
      };
    },
    rename: (from, to) => {
      calls.rename(at(from), at(to));
      syncFolder(dirname(at(to)), calls);
    },
    removeAll: (path) => calls.remove(at(path)),
    sweep: (path) => sweep(at(path), machine),
    token: () => ownWord(machine),
  };
}

function kindOf(stats: Stats): Standing {
  if (stats.isFile()) return 'file';
  if (stats.isDirectory()) return 'folder';
  return stats.isSymbolicLink() ? 'link' : 'other';
}

import { readFileSync } from 'node:fs';
import type { Effects } from './effects.js';
import { isAbsolute, resolve } from 'node:path';
import { terminal } from '../problem/message.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';

/** What a run tells the shell. */
export const exitCode = {
  well: 0,
  /** Something in the records is wrong. */
  problems: 1,
  /** The command was called wrongly, or the machine refused (a folder that cannot be written). */
  wrongUse: 2,
  /** A fault of this program's own. */
  ownFault: 3,
} as const;
export type ExitCode = (typeof exitCode)[keyof typeof exitCode];

/** Thrown for a wrong call: the message is for the user, whole, with how to mend it. */
export class WrongUse extends Error {}

/** Says what stopped a command, or its work on one farm: what the user or the disk did in a line, a fault of ours whole. */
export function exitOf(error: unknown, effects: Pick<Effects, 'warn'>, of = 'growdown'): ExitCode {
  const say = (text: string): void => effects.warn(`${of}: ${text.replaceAll('\n', `\n${of}: `)}\n`);
  if (error instanceof WrongUse) {
    say(error.message);
    return exitCode.wrongUse;
  }
  const { code, path } = error as NodeJS.ErrnoException;
  if (code !== undefined && /^E(?!RR_)[A-Z0-9]+$/.test(code)) {
    const left = leftBy('above');
    say(
      path === undefined
        ? terminal('run.disk-refuses', { code, left })
        : terminal('run.disk-refuses-file', { path, code, left }),
    );
    return exitCode.wrongUse;
  }
  const fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
  effects.warn(`${terminal('run.own-fault', { of, left: leftBy('above') })}\n${fault}\n`);
  return exitCode.ownFault;
}

/**
 * What a refusal, or a look at what would be, leaves behind: the records as they were, but for what was said before it;
 * `asked` where somebody may say that a slip is right as it stands.
 */
export function leftBy(what: 'above' | 'nothing' | 'asked' | 'dry-run'): string {
  return terminal(`left.${what}`);
}

/** What the system refused, and its word why. Error: any other error is thrown on */
export function refusalOf(error: unknown): { readonly code: string; readonly path?: string } {
  const { code, path } = error as NodeJS.ErrnoException;
  if (code === undefined) throw error;
  return { code, ...given({ path }) };
}

export function worse(one: ExitCode, other: ExitCode): ExitCode {
  return one > other ? one : other;
}

/** The options that every command over case files takes, as the user gave them. */
export interface CommonOptions {
  readonly cases: string;
  readonly farm?: string;
  readonly today?: CalendarDay;
  readonly json?: true;
  /** False: nothing that was made earlier is used, and nothing is kept. */
  readonly cache?: boolean;
}

/** A folder the user named, absolute. */
export function folderOf(effects: Effects, named: string): string {
  return isAbsolute(named) ? named : resolve(effects.folder, named);
}

/** A farm is looked up by name and never opened as a path; who types the folder's name with its slash means the farm. */
export function readSlug(value: string): string {
  return value.replace(/(?<=.)[\\/]+$/, '');
}

/** What a refusal of the file system means to somebody who only wants the file, under `terminal.result`. */
const refusals = new Set(['EEXIST', 'ENOTDIR', 'EISDIR', 'ENOENT', 'ENOSPC', 'EROFS']);

/** Writes a result whole. A file system that refuses is no fault of the program's: it is said with the way out. */
export function writeResult(path: string, content: string | Uint8Array, effects: Effects): void {
  try {
    effects.writeFile(path, content);
  } catch (error) {
    const { code } = refusalOf(error);
    throw new WrongUse(terminal(`result.${refusals.has(code) ? code : 'other'}`, { path, code }));
  }
}

/** Which version of the program this is. */
export function versionOf(): string {
  const pack: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return String((pack as { version?: unknown }).version);
}

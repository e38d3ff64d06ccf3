import type { Effects } from './effects.js';
import { isAbsolute, resolve } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { terminal } from '../problem/message.js';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import { type Period, readPeriod } from '../record/period.js';

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
    say(
      path === undefined ? terminal('stopped.disk', { code }) : terminal('stopped.disk-at', { code, path }),
    );
    return exitCode.wrongUse;
  }
  const said = error instanceof Error ? (error.stack ?? error.message) : String(error);
  effects.warn(`${of}: ${terminal('stopped.own-fault')}\n${said}\n`);
  return exitCode.ownFault;
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
}

/** Adds `--cases --farm --today --json` to a command. */
export function withCommonOptions(command: Command): Command {
  return command
    .option('--cases <folder>', 'the folder that holds a folder for each farm', './cases')
    .option('--farm <slug>', "only this farm: its folder's name", readSlug)
    .option('--today <day>', 'work as on this day, YYYY-MM-DD (default: today)', readDay)
    .option('--json', 'print the result as JSON');
}

/** A folder the user named, absolute. */
export function folderOf(effects: Effects, named: string): string {
  return isAbsolute(named) ? named : resolve(effects.folder, named);
}

/** A day given with an option. */
export function readDay(value: string): CalendarDay {
  if (!calendarDay.safeParse(value).success)
    throw new InvalidArgumentError('Expected a day that exists, as in 2026-06-16.');
  return value;
}

/** A period given with an option. */
export function readPeriodGiven(value: string): Period {
  const read = readPeriod(value);
  if ('wrong' in read) throw new InvalidArgumentError(read.wrong);
  return read.period;
}

/** A farm is looked up by name and never opened as a path; who types the folder's name with its slash means the farm. */
export function readSlug(value: string): string {
  return value.replace(/(?<=.)[\\/]+$/, '');
}

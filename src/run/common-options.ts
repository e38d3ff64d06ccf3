import { isAbsolute, resolve } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import { type Period, readPeriod } from '../record/period.js';
import type { Effects } from './effects.js';

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

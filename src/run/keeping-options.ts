import type { Command } from 'commander';
import { asItWas } from '../casefile/unfinished.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Keeping } from '../keep/change.js';
import { readDay } from './common-options.js';
import type { Effects } from './effects.js';
import { WrongUse } from './exit-code.js';
import { namedCase } from './find-case.js';

/** The options every command that changes case files takes. */
export interface KeepingOptions {
  readonly cases: string;
  readonly today?: CalendarDay;
  readonly json?: true;
  readonly dryRun?: true;
  readonly evenSo?: true;
}

export function withKeepingOptions(command: Command): Command {
  return command
    .option('--cases <folder>', 'the folder that holds a folder for each farm', './cases')
    .option('--today <day>', 'work as on this day, YYYY-MM-DD (default: today)', readDay)
    .option('--dry-run', 'show the change and write nothing')
    .option('--even-so', 'write what looks like a slip all the same: it is right as it stands')
    .option('--json', 'print the result as JSON');
}

/** The case files as they were before whatever was broken off: a command that writes takes that back first. */
export function keepingOf(
  { cases, today, evenSo }: Pick<KeepingOptions, 'cases' | 'today' | 'evenSo'>,
  effects: Effects,
): Keeping {
  const { files } = asItWas(effects.files, cases);
  return { files, cases, today: today ?? effects.today(), ...(evenSo ? { evenSo } : {}) };
}

/** `quernholt/2086`, as typed or as a file's name. */
export function farmAndAnimal(named: string): { readonly farm: string; readonly animal: string } {
  const { farm, animal } = namedCase(named);
  if (farm === undefined || animal === '')
    throw new WrongUse(`\`${named}\` names no animal, expected FARM/ANIMAL such as quernholt/2086`);
  return { farm, animal };
}

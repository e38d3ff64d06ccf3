import type { Command } from 'commander';
import { asItWas } from '../casefile/unfinished.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Keeping, Change, Worked } from '../keep/change.js';
import { readDay, WrongUse, type ExitCode, exitCode } from './exit-code.js';
import type { Effects } from './effects.js';
import { namedCase } from './find-case.js';
import { formatProblem } from '../problem/format-problem.js';
import { commitChange } from '../keep/disk/commit-change.js';
import type { FarmSealed } from '../keep/disk/seal-farm.js';
import { exitFor } from './read-cases.js';
import { changeAsDiff } from '../keep/change-as-diff.js';

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

/**
 * Works a change out and writes it, or shows it where only that is asked for; says what came of it.
 *
 * Shape: the farms whose folders it writes in, and how the change is worked out from the files as they then lie
 */
export async function writeChange(
  options: KeepingOptions,
  effects: Effects,
  farms: readonly string[],
  work: (keeping: Keeping) => Worked,
  how: { readonly undoing?: boolean } = {},
): Promise<ExitCode> {
  const keeping = keepingOf(options, effects);
  const done = options.dryRun ? work(keeping) : await commitChange(effects.disk, keeping, farms, work, how);
  if ('told' in done) for (const line of done.told) effects.warn(`${line}\n`);
  if (done.outcome === 'cannot') throw new WrongUse(done.message);
  if (done.outcome === 'refused') {
    for (const problem of done.problems) effects.warn(`${formatProblem(problem)}\n`);
    if (done.asked && !options.json && (await isRightAsItStands(effects)))
      return await writeChange({ ...options, evenSo: true }, effects, farms, work, how);
    effects.warn(done.asked ? `nothing was written; ${orEvenSo}\n` : 'nothing was written\n');
    return done.asked ? exitCode.problems : exitFor(done.problems);
  }
  const { change } = done;
  for (const problem of change.remarks) effects.warn(`${formatProblem(problem)}\n`);
  const sealed = done.outcome === 'written' ? done.sealed : undefined;
  effects.print(options.json ? asJson(change, sealed) : inWords(change, sealed !== undefined));
  return exitCode.well;
}

/** Said wherever something was asked about and nobody could answer. */
export const orEvenSo = 'put it right, or say --even-so where it is right as it stands';

/** Asked at a terminal; elsewhere nobody has said so. */
export async function isRightAsItStands({ dialogue }: Effects): Promise<boolean> {
  const answer = await dialogue?.choose('is this right as it stands?', [
    { label: 'no, write nothing', value: 'no' },
    { label: 'yes, write it', value: 'yes' },
  ]);
  return answer === 'yes';
}

function inWords(change: Change, written: boolean): string {
  if (!written) return `${changeAsDiff(change)}nothing was written: this shows what would be\n`;
  const lines = change.files.map(({ file, before, after }) => {
    const became = before === undefined ? 'new' : after === undefined ? 'taken away' : 'changed';
    return `${file}: ${became}\n`;
  });
  return `${change.what}\n${lines.join('')}`;
}

function asJson({ what, files, remarks }: Change, sealed: readonly FarmSealed[] | undefined): string {
  const list = files.map(({ file, before, after }) => ({
    file,
    became: before === undefined ? 'new' : after === undefined ? 'taken away' : 'changed',
  }));
  return `${JSON.stringify({ what, written: sealed !== undefined, files: list, sealed: sealed ?? [], remarks }, null, 2)}\n`;
}

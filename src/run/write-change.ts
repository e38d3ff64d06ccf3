import { asItWas } from '../casefile/unfinished.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Keeping, Change, Worked } from '../keep/change.js';
import { leftBy, WrongUse, type ExitCode, exitCode } from './exit-code.js';
import type { Effects } from './effects.js';
import { namedCase } from './find-case.js';
import { formatProblem } from '../problem/format-problem.js';
import { commitChange } from '../keep/disk/commit-change.js';
import type { FarmSealed } from '../keep/disk/seal-farm.js';
import { exitFor } from './read-cases.js';
import { changeAsDiff } from '../keep/change-as-diff.js';
import { terminal } from '../problem/message.js';
import type { Values } from '../reference/words.js';
import { jsonText } from '../record/signs.js';

/** The options every command that changes case files takes. */
export interface KeepingOptions {
  readonly cases: string;
  readonly today?: CalendarDay;
  readonly json?: true;
  readonly dryRun?: true;
  readonly evenSo?: true;
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
  if (farm === undefined || animal === '') throw new WrongUse(terminal('case.no-name', { name: named }));
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
    effects.warn(`${leftBy(done.asked ? 'asked' : 'nothing')}\n`);
    return done.asked ? exitCode.problems : exitFor(done.problems);
  }
  const { change } = done;
  for (const problem of change.remarks) effects.warn(`${formatProblem(problem)}\n`);
  const sealed = done.outcome === 'written' ? done.sealed : undefined;
  effects.print(options.json ? asJson(change, sealed) : inWords(change, sealed !== undefined));
  return exitCode.well;
}

/** Says that the files hold all of it already. */
export function nothingToWrite(
  { json }: Pick<KeepingOptions, 'json'>,
  key: string,
  values: Values,
  effects: Effects,
): ExitCode {
  effects.print(json ? '{ "written": false, "files": [] }\n' : `${terminal(key, values)}\n`);
  return exitCode.well;
}

/** Under the lock the files are as they were looked at, or somebody has just written the same. */
export function justWritten(): never {
  throw new WrongUse(terminal('import.just-written'));
}

/** Asked at a terminal; elsewhere nobody has said so. */
export async function isRightAsItStands({ dialogue }: Effects): Promise<boolean> {
  const answer = await dialogue?.choose(terminal('ask.right'), [
    { label: terminal('ask.right-no'), value: 'no' },
    { label: terminal('ask.right-yes'), value: 'yes' },
  ]);
  return answer === 'yes';
}

function inWords(change: Change, written: boolean): string {
  if (!written) return `${changeAsDiff(change)}${leftBy('dry-run')}\n`;
  const lines = change.files.map((one) => terminal(`change.${becameOf(one)}`, { file: one.file }));
  return [change.what, ...lines].map((line) => `${line}\n`).join('');
}

function becameOf({ before, after }: Change['files'][number]): 'new' | 'taken away' | 'changed' {
  if (before === undefined) return 'new';
  return after === undefined ? 'taken away' : 'changed';
}

function asJson({ what, files, remarks }: Change, sealed: readonly FarmSealed[] | undefined): string {
  const list = files.map((one) => ({ file: one.file, became: becameOf(one) }));
  return jsonText({ what, written: sealed !== undefined, files: list, sealed: sealed ?? [], remarks });
}

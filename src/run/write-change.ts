import { formatProblem } from '../problem/format-problem.js';
import type { Change, Keeping, Worked } from '../keep/change.js';
import { commitChange } from '../keep/disk/commit-change.js';
import type { FarmSealed } from '../keep/disk/seal-farm.js';
import type { Effects } from './effects.js';
import { type ExitCode, exitCode, WrongUse } from './exit-code.js';
import { exitFor } from './read-cases.js';
import { changeAsDiff } from '../keep/change-as-diff.js';
import { type KeepingOptions, keepingOf } from './keeping-options.js';

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

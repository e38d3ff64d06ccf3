import { verifyArchive } from '../bag/check/verify-archive.js';
import { shortHead } from '../ledger/head-of.js';
import { formatProblem, sortProblems } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import { folderOf, exitCode, type ExitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { checkRecords, type RecordsChecked } from '../archive/check-records.js';

export interface VerifyOptions {
  readonly head?: string;
  readonly json?: true;
}

/** Checks an archive and says exactly what is wrong with which file. Reads it where it lies; writes nothing. */
export async function verify(path: string, options: VerifyOptions, effects: Effects): Promise<ExitCode> {
  const shown = path.replaceAll('\\', '/').replace(/(?<=.)\/+$/, '');
  if (options.head !== undefined && !/^[0-9a-f]{16,64}$/.test(digitsOf(options.head)))
    throw new WrongUse(
      `--head ${options.head}: expected the head as it was printed, 16 to 64 of the digits 0-9 a-f`,
    );
  const place = effects.bags.look(folderOf(effects, path)) === undefined ? shown : path;
  let looked: RecordsChecked | undefined;
  const verified = await reading(path, () =>
    verifyArchive(effects.bags, place, (archive) => {
      looked = checkRecords(archive, options.head && digitsOf(options.head));
      return looked.problems;
    }),
  );
  if (!verified) throw new WrongUse(`${path}: nothing is there; name the folder or the zip of an archive`);
  const problems = sortProblems(verified.problems);
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  if (options.json === true)
    effects.print(
      `${JSON.stringify({ archive: shown, files: verified.files, head: looked?.head ?? null, ...looked?.counted, problems }, null, 2)}\n`,
    );
  else if (problems.length === 0) effects.print(`${said(shown, verified.files, looked, options.head)}\n`);
  else effects.warn(`${shown}: ${counted(problems)}\n`);
  return problems.length === 0 ? exitCode.well : exitCode.problems;
}

/** A file the system does not let be read is no fault of the archive's, and none of the program's. */
async function reading<T>(archive: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const { code, path } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new WrongUse(
      `${path ?? archive} could not be read (${code}): look whether you may open it and whether the disk is sound, then run this again`,
    );
  }
}

function said(
  shown: string,
  files: number,
  looked: RecordsChecked | undefined,
  given: string | undefined,
): string {
  const whole = `${shown}: whole and unchanged, ${files} files`;
  const { head, counted: seals } = looked ?? {};
  if (!head || !seals) return `${whole}; nothing in it is sealed`;
  const { records, sealed } = seals;
  const some =
    sealed === records
      ? `all ${records} records as they were sealed`
      : `${sealed} of ${records} records as they were sealed, the others are not sealed`;
  const chain = `${whole}; ${some}\n  head of the ledger: ${shortHead(head)} (${head.entries} entries)`;
  return given === undefined
    ? `${chain}; hold it against one printed in a book or a mail: --head`
    : `${chain}; the head given is in it`;
}

function counted(problems: readonly Problem[]): string {
  const files = new Set(problems.map(({ file }) => file)).size;
  return `${problems.length} ${problems.length === 1 ? 'thing is' : 'things are'} wrong in ${files} ${files === 1 ? 'file' : 'files'}`;
}

function digitsOf(head: string): string {
  return head.replaceAll(/\s/g, '').toLowerCase();
}

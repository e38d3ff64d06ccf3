import { verifyArchive } from '../../archive/check/verify-archive.js';
import { type Head, shortHead } from '../../ledger/head-of.js';
import { formatProblem } from '../../problem/format-problem.js';
import type { Problem } from '../../problem/problem.js';
import { sortProblems } from '../../problem/sort-problems.js';
import { folderOf } from '../common-options.js';
import type { Effects } from '../effects.js';
import { exitCode, type ExitCode, WrongUse } from '../exit-code.js';
import { checkRecords } from './check-records.js';

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
  let head: Head | undefined;
  const verified = await verifyArchive(effects.bags, place, (archive) => {
    const records = checkRecords(archive, options.head && digitsOf(options.head));
    head = records.head;
    return records.problems;
  });
  if (!verified) throw new WrongUse(`${path}: nothing is there; name the folder or the zip of an archive`);
  const problems = sortProblems(verified.problems);
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  if (options.json === true)
    effects.print(
      `${JSON.stringify({ archive: shown, files: verified.files, head: head ?? null, problems }, null, 2)}\n`,
    );
  else if (problems.length === 0) effects.print(`${said(shown, verified.files, head, options.head)}\n`);
  else effects.warn(`${shown}: ${counted(problems)}\n`);
  return problems.length === 0 ? exitCode.well : exitCode.problems;
}

function said(shown: string, files: number, head: Head | undefined, given: string | undefined): string {
  const whole = `${shown}: whole and unchanged, ${files} files`;
  if (!head) return `${whole}; nothing in it is sealed`;
  const chain = `${whole}; each record as it was sealed\n  head of the ledger: ${shortHead(head)} (${head.entries} entries)`;
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

import { verifyArchive } from '../bag/check/verify-archive.js';
import { shortHead } from '../ledger/read-ledger.js';
import { formatProblem, sortProblems } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import { refusalOf, folderOf, exitCode, type ExitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { checkRecords, type RecordsChecked } from '../archive/check-records.js';
import { terminal } from '../problem/message.js';
import { jsonText } from '../record/signs.js';

export interface VerifyOptions {
  readonly head?: string;
  readonly json?: true;
}

/** Checks an archive and says exactly what is wrong with which file. Reads it where it lies; writes nothing. */
export async function verify(path: string, options: VerifyOptions, effects: Effects): Promise<ExitCode> {
  const shown = path.replaceAll('\\', '/').replace(/(?<=.)\/+$/, '');
  if (options.head !== undefined && !/^[0-9a-f]{16,64}$/.test(digitsOf(options.head)))
    throw new WrongUse(terminal('verify.no-head', { head: options.head }));
  const place = effects.bags.look(folderOf(effects, path)) === undefined ? shown : path;
  let looked: RecordsChecked | undefined;
  const verified = await reading(path, () =>
    verifyArchive(effects.bags, place, (archive) => {
      looked = checkRecords(archive, options.head && digitsOf(options.head));
      return looked.problems;
    }),
  );
  if (!verified) throw new WrongUse(terminal('verify.nothing-there', { path }));
  const problems = sortProblems(verified.problems);
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  if (options.json === true)
    effects.print(
      jsonText({
        archive: shown,
        files: verified.files,
        head: looked?.head ?? null,
        ...looked?.counted,
        problems,
      }),
    );
  else if (problems.length === 0)
    effects.print(`${said(shown, verified.files, looked, options.head !== undefined)}\n`);
  else effects.warn(`${counted(shown, problems)}\n`);
  return problems.length === 0 ? exitCode.well : exitCode.problems;
}

/** A file the system does not let be read is no fault of the archive's, and none of the program's. */
async function reading<T>(archive: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const { code, path = archive } = refusalOf(error);
    throw new WrongUse(terminal('verify.unreadable', { path, code }));
  }
}

function said(shown: string, files: number, looked: RecordsChecked | undefined, isGiven: boolean): string {
  const { head, counted: seals } = looked ?? {};
  if (!head || !seals) return terminal('verify.none-sealed', { archive: shown, files });
  const { records, sealed } = seals;
  const way = sealed === records ? 'verify.all-sealed' : 'verify.some-sealed';
  const whole = terminal(way, { archive: shown, files, sealed, records });
  const chain = { head: shortHead(head), entries: head.entries };
  return `${whole}\n  ${terminal(isGiven ? 'verify.head-given' : 'verify.head', chain)}`;
}

function counted(archive: string, problems: readonly Problem[]): string {
  const files = new Set(problems.map(({ file }) => file)).size;
  const way = files === 1 ? 'verify.wrong-in-one' : 'verify.wrong';
  return terminal(way, { archive, count: problems.length, files });
}

function digitsOf(head: string): string {
  return head.replaceAll(/\s/g, '').toLowerCase();
}

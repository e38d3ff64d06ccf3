import { ledgerFile } from '../casefile/read-ledger-file.js';
import { archiveOn } from '../herd/archive-on.js';
import { countLine, formatProblem, sortProblems } from '../problem/format-problem.js';
import { type CommonOptions, type ExitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { gapProblems } from '../words/gap-problems.js';
import { isPictureThere } from '../run/read-picture.js';
import { exitFor, readCases } from '../run/read-cases.js';
import { headOf, holdsHead } from '../ledger/head-of.js';
import { openSeals } from '../ledger/open-seals.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';
import type { Problem } from '../problem/problem.js';

/**
 * Lists all that is wrong with the case files and all that is missing in them; writes nothing. Pictures are read and
 * held against their seals, and the ledger against a head printed elsewhere where one is given.
 */
export function check(options: CommonOptions & { readonly head?: string }, effects: Effects): ExitCode {
  const reading = readCases(options, effects, { pictures: 'hashed' });
  const { practice, farms, problems, today, filesRead, farmsFound, sealsOf } = reading;
  const priors = archiveOn(practice, today).priors;
  const gaps = farms.flatMap((farm) =>
    gapProblems(practice, farm, today, priors, isPictureThere(effects, options.cases, farm.slug)),
  );
  const seals = farmsFound.flatMap((farm) => {
    const shown = {
      file: `${options.cases.replaceAll('\\', '/').replace(/^\.\/|\/+$/g, '')}/${farm}/${ledgerFile}`,
      farm,
    };
    const head = options.head === undefined ? [] : headProblem(sealsOf(farm), options.head, shown);
    return [...unsealedNote(sealsOf(farm), shown), ...head];
  });
  const all = sortProblems([...problems, ...gaps, ...seals]);
  if (options.json === true) effects.print(`${JSON.stringify(all, null, 2)}\n`);
  else {
    for (const problem of all) effects.warn(`${formatProblem(problem)}\n`);
    effects.print(`${countLine(all, filesRead)}\n`);
  }
  return exitFor(all);
}

/** Where a farm's ledger is, as the user would type it. */
interface LedgerShown {
  readonly file: string;
  readonly farm: string;
}

/** Of a farm that is sealed at all: how much is not yet. */
function unsealedNote(seals: FarmSeals | undefined, { file, farm }: LedgerShown): Problem[] {
  if (!seals?.head) return [];
  const open = openSeals(seals).length;
  if (open === 0) return [];
  return [
    {
      id: 'seal/unsealed',
      severity: 'note',
      file,
      message: `${open} ${open === 1 ? 'record is' : 'records are'} not sealed as written, expected each sealed soon after it was made`,
      mend: `\`growdown seal --farm ${farm}\` seals them; a seal counts from the day it is made`,
    },
  ];
}

/**
 * A head printed in a book or a mail, looked for in a farm's ledger: one that is not in it tells that the ledger was cut
 * off before it, or written anew.
 */
function headProblem(seals: FarmSeals | undefined, printed: string, { file, farm }: LedgerShown): Problem[] {
  let found: unknown;
  try {
    found = seals && holdsHead(seals.ledger, printed);
  } catch {
    throw new WrongUse(
      `--head ${printed}: expected the head as it was printed, 16 to 64 of the digits 0-9 a-f`,
    );
  }
  if (found) return [];
  const head = seals && headOf(seals.ledger);
  return [
    {
      id: 'ledger/head-unknown',
      severity: 'error',
      file,
      message: `no entry of ${farm}'s ledger has the head ${printed}, expected it among the ${head?.entries ?? 0} entries: the ledger was cut off before it, or written anew`,
      mend: 'look whether the head is of this farm and typed as printed; else put the ledger back from a copy made after it was printed',
    },
  ];
}

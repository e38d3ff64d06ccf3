import { ledgerFile } from '../casefile/read-ledger-file.js';
import { priorsFor } from '../growth/learning/priors-for.js';
import { countLine } from '../problem/count-line.js';
import { formatProblem } from '../problem/format-problem.js';
import { sortProblems } from '../problem/sort-problems.js';
import type { CommonOptions } from './common-options.js';
import type { Effects } from './effects.js';
import { gapProblems } from './gap-problems.js';
import { isPictureThere } from './is-picture-there.js';
import type { ExitCode } from './exit-code.js';
import { exitFor, readCases } from './read-cases.js';
import { headProblem, unsealedNote } from './seal-problems.js';

/**
 * Lists all that is wrong with the case files and all that is missing in them; writes nothing. Pictures are read and
 * held against their seals, and the ledger against a head printed elsewhere where one is given.
 */
export function check(options: CommonOptions & { readonly head?: string }, effects: Effects): ExitCode {
  const reading = readCases(options, effects, { pictures: 'hashed' });
  const { practice, farms, problems, today, filesRead, farmsFound, sealsOf } = reading;
  const priors = priorsFor(practice, today);
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

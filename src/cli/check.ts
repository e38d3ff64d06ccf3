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

/** Lists all that is wrong with the case files and all that is missing in them; writes nothing. */
export function check(options: CommonOptions, effects: Effects): ExitCode {
  const { practice, farms, problems, today, filesRead } = readCases(options, effects);
  const priors = priorsFor(practice, today);
  const gaps = farms.flatMap((farm) =>
    gapProblems(practice, farm, today, priors, isPictureThere(effects, options.cases, farm.slug)),
  );
  const all = sortProblems([...problems, ...gaps]);
  if (options.json === true) effects.print(`${JSON.stringify(all, null, 2)}\n`);
  else {
    for (const problem of all) effects.warn(`${formatProblem(problem)}\n`);
    effects.print(`${countLine(all, filesRead)}\n`);
  }
  return exitFor(all);
}

import { countLine } from '../problem/count-line.js';
import { formatProblem } from '../problem/format-problem.js';
import { gapProblems } from '../schedule/gap-problems.js';
import type { CommonOptions } from './common-options.js';
import type { Effects } from './effects.js';
import { exitCode, type ExitCode } from './exit-code.js';
import { readCases } from './read-cases.js';

/** Lists all that is wrong with the case files and all that is missing in them; writes nothing. */
export function check(options: CommonOptions, effects: Effects): ExitCode {
  const { practice, problems, today, filesRead } = readCases(options, effects);
  const all = [...problems, ...practice.farms.flatMap((farm) => gapProblems(practice, farm, today))];
  if (options.json === true) effects.print(`${JSON.stringify(all, null, 2)}\n`);
  else {
    for (const problem of all) effects.warn(`${formatProblem(problem)}\n`);
    effects.print(`${countLine(all, filesRead)}\n`);
  }
  return all.some((p) => p.severity === 'error') ? exitCode.problems : exitCode.well;
}

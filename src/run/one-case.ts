import type { CommonOptions } from './common-options.js';
import type { Effects } from './effects.js';
import { exitCode, type ExitCode, WrongUse } from './exit-code.js';
import { findCase, type FoundCase, namedCase } from './find-case.js';
import { exitFor, listProblems, type Reading, readCases } from './read-cases.js';
import { given } from '../record/given.js';

/** One animal's case with all that was read, or how the command ends without it. */
export type OneCase = ({ readonly reading: Reading } & FoundCase) | { readonly ended: ExitCode };

/**
 * Reads all case files and finds the one animal named; errors, and warnings of her own file, are listed. Her farm must
 * read without an error.
 *
 * Error:   WrongUse where none is meant or several are, or where two farms are named
 */
export function readOneCase(named: string, options: CommonOptions, effects: Effects): OneCase {
  const asked = namedCase(named);
  const slug = asked.farm ?? options.farm;
  if (asked.farm !== undefined && options.farm !== undefined && asked.farm !== options.farm)
    throw new WrongUse(`\`${named}\` names another farm than --farm ${options.farm}`);
  const reading = readCases({ ...options, ...given({ farm: slug }) }, effects);
  const { farms, problems, farmsRefused } = reading;
  listProblems(
    problems.filter(
      (p) => p.severity === 'error' || (p.severity === 'warning' && p.file.endsWith(`/${asked.animal}.md`)),
    ),
    reading.filesRead,
    effects,
  );
  const failed = exitFor(problems);
  if (farms.length === 0 && failed !== exitCode.well) {
    for (const refused of farmsRefused)
      effects.warn(
        `${refused}: no page, because of the errors above; one that is there already is left as it was\n`,
      );
    return { ended: failed };
  }
  const found = findCase(farms, asked);
  if (found.others.length > 0)
    effects.warn(
      `${found.farm.slug}/${found.record.slug}: others bear this number too: ${found.others.join(', ')}\n`,
    );
  return { reading, ...found };
}

import { join } from 'node:path';
import { composeCase } from '../book/compose-case.js';
import { archiveOn } from '../growth/archive-on.js';
import { pictureNumbers } from '../reference/picture-numbers.js';
import { bookWithin } from './book-within.js';
import { type CommonOptions, folderOf } from './common-options.js';
import type { Effects } from './effects.js';
import { exitCode, type ExitCode, WrongUse } from './exit-code.js';
import { findCase, namedCase } from './find-case.js';
import { isPictureThere } from './is-picture-there.js';
import { picturesSaid, pictureWarnings } from './pictures-said.js';
import { exitFor, listProblems, readCases } from './read-cases.js';
import { readPicture } from './read-picture.js';
import { writeResult } from './write-result.js';

/**
 * Writes one animal's page as a file of its own. Her farm must read without an error, as for its book; all farms teach
 * what to expect of her, so the dates are those of the book.
 */
export async function caseAlone(
  named: string,
  options: CommonOptions & { out: string; maxMb?: number },
  effects: Effects,
): Promise<ExitCode> {
  const asked = namedCase(named);
  const slug = asked.farm ?? options.farm;
  if (asked.farm !== undefined && options.farm !== undefined && asked.farm !== options.farm)
    throw new WrongUse(`\`${named}\` names another farm than --farm ${options.farm}`);
  const reading = readCases({ ...options, ...(slug === undefined ? {} : { farm: slug }) }, effects);
  const { practice, farms, today, problems, farmsRefused } = reading;
  listProblems(
    problems.filter(
      (p) => p.severity === 'error' || (p.severity === 'warning' && isOf(asked.animal, p.file)),
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
    return failed;
  }
  const { farm, record, others } = findCase(farms, asked);
  const { html, ...made } = await bookWithin(
    practice,
    { ...farm, cases: [record] },
    today,
    {
      archive: archiveOn(practice, today),
      isPictureThere: isPictureThere(effects, options.cases, farm.slug),
    },
    {
      maxMb: options.maxMb ?? pictureNumbers.bookMb.value,
      read: readPicture(effects, options.cases, farm.slug),
      compose: composeCase,
    },
  );
  const file = join(farm.slug, `${record.slug}.html`);
  writeResult(join(folderOf(effects, options.out), file), html, effects);
  for (const warning of pictureWarnings(farm.slug, { html, ...made })) effects.warn(warning);
  if (others.length > 0)
    effects.warn(`${farm.slug}/${record.slug}: others bear this number too: ${others.join(', ')}\n`);
  const written = { farm: farm.slug, animal: record.slug, file: join(options.out, file), bytes: made.bytes };
  if (options.json === true) effects.print(`${JSON.stringify(written, null, 2)}\n`);
  else {
    const said = picturesSaid({ html, ...made });
    effects.print(
      `${written.file}  ${farm.farm.farm}: ${record.animal.animal}\n${said === '' ? '' : `  ${said}\n`}`,
    );
  }
  return exitFor(problems);
}

/** Whether a file is the case's own, by its name. */
function isOf(animal: string, file: string): boolean {
  return file.endsWith(`/${animal}.md`);
}

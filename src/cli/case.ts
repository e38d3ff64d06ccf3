import { join } from 'node:path';
import { composeCase } from '../book/compose-case.js';
import { archiveOn } from '../herd/archive-on.js';
import { pictureNumbers } from '../reference/numbers.js';
import { bookWithin } from '../book/book-within.js';
import { type CommonOptions, folderOf, type ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { isPictureThere, readPicture } from '../run/read-picture.js';
import { readOneCase } from '../run/find-case.js';
import { picturesSaid, pictureWarnings } from '../book/pictures-said.js';
import { exitFor } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';

/**
 * Writes one animal's page as a file of its own. Her farm must read without an error, as for its book; all farms teach
 * what to expect of her, so the dates are those of the book.
 */
export async function caseAlone(
  named: string,
  options: CommonOptions & { out: string; maxMb?: number },
  effects: Effects,
): Promise<ExitCode> {
  const one = readOneCase(named, options, effects);
  if ('ended' in one) return one.ended;
  const { farm, record } = one;
  const { practice, today, problems } = one.reading;
  const { html, ...made } = await bookWithin(
    practice,
    { ...farm, cases: [record] },
    today,
    {
      archive: archiveOn(practice, today),
      isPictureThere: isPictureThere(effects, options.cases, farm.slug),
      seals: one.reading.sealsOf(farm.slug),
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

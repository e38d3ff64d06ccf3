import { join } from 'node:path';
import { composeBook } from '../book/compose-book.js';
import { renderBook } from '../book/render-book.js';
import { archiveOn } from '../growth/archive-on.js';
import type { FarmRecord } from '../record/practice.js';
import { type CommonOptions, folderOf } from './common-options.js';
import type { Effects } from './effects.js';
import type { ExitCode } from './exit-code.js';
import { isPictureThere } from './is-picture-there.js';
import { progressOn } from './progress.js';
import { exitFor, listProblems, readCases } from './read-cases.js';
import { writeResult } from './write-result.js';

/**
 * Writes one book a farm. A farm with an error keeps the book it has; the others get theirs.
 *
 * The books are composed one at a time, each written whole before the next is begun, so that memory stays flat
 * and a run that is stopped leaves only whole books.
 */
export async function books(options: CommonOptions & { out: string }, effects: Effects): Promise<ExitCode> {
  const reading = readCases(options, effects);
  const { practice, farms, today, problems, farmsRefused } = reading;
  const archive = archiveOn(practice, today);
  const progress = progressOn(effects);
  const written: { farm: string; file: string; animals: number; bytes: number }[] = [];
  for (const [index, farm] of farms.entries()) {
    progress.show(index + 1, farms.length, farm.farm.farm);
    const html = await renderBook(
      composeBook(practice, farm, today, {
        archive,
        isPictureThere: isPictureThere(effects, options.cases, farm.slug),
      }),
    );
    const file = join(options.out, `${farm.slug}.html`);
    writeResult(join(folderOf(effects, options.out), `${farm.slug}.html`), html, effects);
    written.push({ farm: farm.slug, file, animals: farm.cases.length, bytes: Buffer.byteLength(html) });
  }
  progress.clear();

  listProblems(
    problems.filter((p) => p.severity !== 'note'),
    reading.filesRead,
    effects,
  );
  for (const slug of farmsRefused)
    effects.warn(
      `${slug}: no new book, because of the errors above; a book it has already is left as it was\n`,
    );
  if (options.json === true)
    effects.print(`${JSON.stringify({ books: written, refused: farmsRefused, problems }, null, 2)}\n`);
  else for (const book of written) effects.print(`${book.file}  ${inWords(farms, book.farm)}\n`);
  return exitFor(problems);
}

function inWords(farms: readonly FarmRecord[], slug: string): string {
  const farm = farms.find((f) => f.slug === slug);
  const animals = farm?.cases.length ?? 0;
  const visits = farm?.cases.reduce((sum, one) => sum + one.animal.visits.length, 0) ?? 0;
  return `${farm?.farm.farm ?? slug}: ${animals} ${animals === 1 ? 'animal' : 'animals'}, ${visits} ${visits === 1 ? 'visit' : 'visits'}`;
}

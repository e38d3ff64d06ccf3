import { join } from 'node:path';
import { archiveOn } from '../herd/archive-on.js';
import type { FarmRecord } from '../record/practice.js';
import { pictureNumbers } from '../reference/numbers.js';
import { bookWithin, type BookWithin } from '../book/book-within.js';
import { type CommonOptions, folderOf, type ExitCode, farmByFarm, worse } from '../run/exit-code.js';
import { type Effects, progressOn } from '../run/effects.js';
import { farmCounted, isPictureThere, readPicture } from '../run/read-picture.js';
import { picturesCounted, picturesSaid, pictureWarnings } from '../book/pictures-said.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';

export type BooksOptions = CommonOptions & { out: string; maxMb?: number; openOnly?: boolean };

/**
 * Writes one book a farm. A farm with an error keeps the book it has; the others get theirs.
 *
 * The books are composed one at a time, each written whole before the next is begun, so that memory stays flat
 * and a run that is stopped leaves only whole books.
 */
export async function books(options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const reading = readCases(options, effects, { pictures: 'hashed' });
  const { practice, farms, today, problems, farmsRefused } = reading;
  const archive = archiveOn(practice, today);
  const progress = progressOn(effects);
  const openOnly = options.openOnly === true;
  const maxMb = options.maxMb ?? pictureNumbers.bookMb.value;
  const written: {
    entry: ReturnType<typeof entryOf> & { openOnly: boolean };
    counted: string;
    said: string;
  }[] = [];
  const warnings: string[] = [];
  const ended = await farmByFarm(farms, effects, async (farm, index) => {
    progress.show(index + 1, farms.length, farm.farm.farm);
    const book = await bookWithin(
      practice,
      farm,
      today,
      {
        archive,
        openOnly,
        isPictureThere: isPictureThere(effects, options.cases, farm.slug),
        seals: reading.sealsOf(farm.slug),
      },
      {
        maxMb,
        read: readPicture(effects, options.cases, farm.slug),
        onMade: (done, of) => progress.show(done, of, `pictures of ${farm.farm.farm}`),
      },
    );
    const file = join(options.out, `${farm.slug}.html`);
    writeResult(join(folderOf(effects, options.out), `${farm.slug}.html`), book.html, effects);
    written.push({
      entry: { ...entryOf(farm, file, book), openOnly },
      counted: farmCounted(farm),
      said: picturesSaid(book),
    });
    for (const warning of pictureWarnings(farm.slug, book)) warnings.push(warning);
  });
  progress.clear();

  listProblems(
    problems.filter((p) => p.severity !== 'note'),
    reading.filesRead,
    effects,
  );
  for (const warning of warnings) effects.warn(warning);
  for (const slug of farmsRefused)
    effects.warn(
      `${slug}: no new book, because of the errors above; a book it has already is left as it was\n`,
    );
  if (options.json === true) {
    const entries = written.map(({ entry }) => entry);
    effects.print(`${JSON.stringify({ books: entries, refused: farmsRefused, problems }, null, 2)}\n`);
  } else
    for (const { entry, counted, said } of written) {
      effects.print(`${entry.file}  ${counted}${openOnly ? '; open cases only' : ''}\n`);
      if (said !== '') effects.print(`  ${said}\n`);
    }
  return worse(ended, exitFor(problems));
}

function entryOf(farm: FarmRecord, file: string, book: BookWithin) {
  const { bytes } = book;
  return { farm: farm.slug, file, animals: farm.cases.length, bytes, pictures: picturesCounted(book) };
}

import type { BooksOptions } from './make-book.js';
import type { ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';

/**
 * Writes one book a farm. A farm with an error keeps the book it has; the others get theirs.
 *
 * The books are composed one at a time, each written whole before the next is begun, so that memory stays flat
 * and a run that is stopped leaves only whole books.
 */
export async function books(options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const run = booksRun('books.refused', options, effects);
  const written = await run.each(
    async (farm, show) => (await import('./make-book.js')).makeBook(run, farm, options, effects, show),
    { as: 'books', on: [options.openOnly, options.maxMb, options.annex] },
  );
  return run.end({ books: written, refused: run.farmsRefused, problems: run.problems });
}

/** All that is wrong with the records of the books is listed, but for notes; pictures are checked against their seals. */
export function booksRun(refused: string, options: BooksOptions, effects: Effects): FarmRun {
  return farmRun(options, effects, {
    refused,
    pictures: 'hashed',
    trustsPictures: true,
    lists: ({ severity }) => severity !== 'note',
  });
}

import { composeAnnex, renderAnnex } from '../book/annex.js';
import { bookWithin, type BookWithin, type WithinSize } from '../book/book-within.js';
import { picturesCounted, picturesSaid, pictureWarnings } from '../book/pictures-said.js';
import { terminal } from '../problem/message.js';
import type { FarmRecord } from '../record/practice.js';
import { given } from '../record/given.js';
import { pictureNumbers } from '../reference/numbers.js';
import type { CommonOptions, ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun, type Show } from '../run/farm-run.js';
import { farmCounted, isPictureThere, readPicture } from '../run/read-picture.js';
import { writeStaffPages } from './staff.js';

export type BooksOptions = CommonOptions & {
  out: string;
  maxMb?: number;
  openOnly?: boolean;
  annex?: true;
};

/**
 * Writes one book a farm. A farm with an error keeps the book it has; the others get theirs.
 *
 * The books are composed one at a time, each written whole before the next is begun, so that memory stays flat
 * and a run that is stopped leaves only whole books.
 */
export async function books(options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const run = booksRun('books.refused', options, effects);
  const openOnly = options.openOnly === true;
  const written = await run.each(async (farm, show) => {
    const book = await bookOf(run, farm, options, effects, { show });
    const file = run.write(`${farm.slug}.html`, book.html);
    run.say(terminal(openOnly ? 'books.written-open-only' : 'books.written', { file, ...farmCounted(farm) }));
    sayPictures(run, farm.slug, book);
    const { bytes } = book;
    const annex = options.annex && run.write(`${farm.slug}-annex.html`, annexOf(run, farm, options, effects));
    if (annex) run.say(terminal('books.annex', { file: annex, farm: farm.farm.farm }));
    const staff = writeStaffPages(run, farm);
    return {
      farm: farm.slug,
      file,
      animals: farm.cases.length,
      bytes,
      pictures: picturesCounted(book),
      openOnly,
      ...given({ annex, staff: staff.length > 0 ? staff : undefined }),
    };
  });
  return run.end({ books: written, refused: run.farmsRefused, problems: run.problems });
}

/** All that is wrong with the records of the books is listed, but for notes; pictures are held against their seals. */
export function booksRun(refused: string, options: BooksOptions, effects: Effects): FarmRun {
  return farmRun(options, effects, {
    refused,
    pictures: 'hashed',
    lists: ({ severity }) => severity !== 'note',
  });
}

/** A farm's book with its pictures. */
export function bookOf(
  run: FarmRun,
  farm: FarmRecord,
  { cases, openOnly = false, maxMb = pictureNumbers.bookMb.value }: Omit<BooksOptions, 'out'>,
  effects: Effects,
  { show, ...layout }: { readonly show?: Show } & Pick<WithinSize, 'compose'> = {},
): Promise<BookWithin> {
  const of = terminal('progress.pictures', { farm: farm.farm.farm });
  return bookWithin(
    run.practice,
    farm,
    run.today,
    {
      pooled: run.pooled,
      openOnly,
      isPictureThere: isPictureThere(effects, cases, farm.slug),
      seals: run.sealsOf(farm.slug),
    },
    {
      maxMb,
      read: readPicture(effects, cases, farm.slug),
      onMade: (done, all) => show?.(of, done, all),
      ...layout,
    },
  );
}

/** A farm's annex; `business` in the place of the one on record. */
export function annexOf(
  { practice, today, pooled, sealsOf }: FarmRun,
  farm: FarmRecord,
  { cases }: Pick<CommonOptions, 'cases'>,
  effects: Effects,
  business = practice.business,
): string {
  return renderAnnex(
    composeAnnex({ ...practice, business }, farm, today, {
      pooled,
      seals: sealsOf(farm.slug),
      isPictureThere: isPictureThere(effects, cases, farm.slug),
      read: readPicture(effects, cases, farm.slug),
    }),
  );
}

/** What was done with a book's pictures, under its line, and a warning for each that is not in it. */
export function sayPictures(run: FarmRun, farm: string, book: BookWithin): void {
  const said = picturesSaid(book);
  if (said !== '') run.say(`  ${said}`);
  for (const warning of pictureWarnings(farm, book)) run.warn(warning);
}

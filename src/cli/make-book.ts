import { composeAnnex, renderAnnex } from '../book/annex.js';
import { bookWithin, type BookWithin, type WithinSize } from '../book/book-within.js';
import { picturesCounted, picturesSaid, pictureWarnings } from '../book/pictures-said.js';
import { terminal } from '../problem/message.js';
import type { FarmRecord } from '../record/practice.js';
import { given } from '../record/given.js';
import { pictureNumbers } from '../reference/numbers.js';
import { type CommonOptions, type ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import type { FarmRun, Show } from '../run/farm-run.js';
import { farmCounted, isPictureThere, readPicture } from '../run/read-cases.js';
import { composeCase } from '../book/compose-case.js';
import { join } from 'node:path';
import { readOneCase } from '../run/find-case.js';
import { writeStaffPages } from './staff.js';

export type BooksOptions = CommonOptions & {
  out: string;
  maxMb?: number;
  openOnly?: boolean;
  annex?: true;
};

/** Makes a farm's book and writes it, with its annex where that is asked for; what is said of it as JSON. */
export async function makeBook(
  run: FarmRun,
  farm: FarmRecord,
  options: BooksOptions,
  effects: Effects,
  show: Show,
) {
  const openOnly = options.openOnly === true;
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
}

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

/**
 * Writes one animal's page as a file of its own. Her farm must read without an error, as for its book; all farms teach
 * what to expect of her, so the dates are those of the book.
 */
export async function caseAlone(named: string, options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const one = readOneCase(named, options, effects);
  if ('ended' in one) return one.ended;
  const { run, farm, record } = one;
  const alone = { ...farm, cases: [record] };
  const book = await bookOf(run, alone, options, effects, { compose: composeCase });
  const file = run.write(join(farm.slug, `${record.slug}.html`), book.html);
  run.say(terminal('page.written', { file, farm: farm.farm.farm, animal: record.animal.animal }));
  sayPictures(run, farm.slug, book);
  return run.end({ farm: farm.slug, animal: record.slug, file, bytes: book.bytes });
}

import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { inject } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { composeAnnex, renderAnnex } from '../../src/book/annex.js';
import { bookWithin } from '../../src/book/book-within.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { CalendarDay } from '../../src/record/calendar-day.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import type { Paper } from '../../src/record/words.js';
import { pictureNumbers } from '../../src/reference/numbers.js';
import { farmWith, fullFarm, fullPractice } from '../book/full-practice.js';

export interface BookOnDisk {
  readonly name: string;
  readonly address: string;
  readonly file: string;
  readonly html: string;
  readonly paper: Paper;
  /** What the book was made from. */
  readonly practice: Practice;
  readonly farm: FarmRecord;
  readonly today: CalendarDay;
}

const demo = fileURLToPath(new URL('../../cases', import.meta.url));
const demoDay = '2026-06-16';

const made = new Map<Paper | undefined, Promise<BookOnDisk[]>>();

/**
 * The demo's books with their pictures, one with every field filled, and one of a farm without an animal, written where a
 * browser can open them; on another paper where one is named. Made once a worker.
 */
export function booksOnDisk(paper?: Paper): Promise<BookOnDisk[]> {
  const books = made.get(paper) ?? makeBooks(paper);
  made.set(paper, books);
  return books;
}

async function makeBooks(paper?: Paper): Promise<BookOnDisk[]> {
  const { practice } = readPractice(nodeCaseFiles, demo, { today: demoDay });
  const bare = { farm: 'Empty Fold', language: 'en-US' } as const;
  const nobody = { business: {}, narrative: '', farms: [] };
  const books: Pick<BookOnDisk, 'name' | 'practice' | 'farm' | 'today'>[] = [
    ...practice.farms.map((farm) => ({ name: farm.slug, practice, farm, today: demoDay })),
    { name: 'every-field', practice: fullPractice, farm: fullFarm, today: '2026-03-10' },
    {
      name: 'empty',
      practice: nobody,
      farm: { ...farmWith([]), slug: 'empty', farm: bare, narrative: '' },
      today: demoDay,
    },
  ];
  const folder = mkdtempSync(join(inject('folder'), 'books-'));
  const pooled = pooledOn(practice, demoDay);
  const written: BookOnDisk[] = [];
  for (const { name, practice: of, farm: asWritten, today } of books) {
    const farm = paper ? { ...asWritten, farm: { ...asWritten.farm, paper } } : asWritten;
    const at = (picture: string) => join(demo, farm.slug, picture);
    const { html } = await bookWithin(
      of,
      farm,
      today,
      {
        ...(of === practice ? { pooled } : {}),
        isPictureThere: (picture) => of === practice && existsSync(at(picture)),
      },
      {
        maxMb: pictureNumbers.bookMb.value,
        read: (picture) =>
          of === practice && existsSync(at(picture)) ? readFileSync(at(picture)) : undefined,
      },
    );
    const file = join(folder, `${name}.html`);
    writeFileSync(file, html);
    written.push({
      name,
      address: pathToFileURL(file).href,
      file,
      html,
      paper: farm.farm.paper ?? 'A4',
      practice: of,
      farm,
      today,
    });
  }
  return written;
}

/** The annex of each of those books, written beside it. */
export async function annexesOnDisk(): Promise<BookOnDisk[]> {
  return (await booksOnDisk()).map((book): BookOnDisk => {
    const at = (picture: string) => join(demo, book.farm.slug, picture);
    const read = (picture: string) => (existsSync(at(picture)) ? readFileSync(at(picture)) : undefined);
    const html = renderAnnex(composeAnnex(book.practice, book.farm, book.today, { read }));
    const file = book.file.replace('.html', '-annex.html');
    writeFileSync(file, html);
    return { ...book, name: `${book.name} annex`, address: pathToFileURL(file).href, file, html };
  });
}

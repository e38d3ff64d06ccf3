import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { Paper } from '../../src/record/words.js';
import { farmWith, fullFarm, fullPractice } from '../book/full-practice.js';

export interface BookOnDisk {
  readonly name: string;
  readonly address: string;
  readonly html: string;
  readonly paper: Paper;
}

const demo = fileURLToPath(new URL('../../cases', import.meta.url));
const demoDay = '2026-06-16';

/** The demo's books, one with every field filled, and one of a farm without an animal, written where a browser can open them. */
export async function booksOnDisk(): Promise<BookOnDisk[]> {
  const { practice } = readPractice(nodeCaseFiles, demo, { today: demoDay });
  const pages = [
    ...practice.farms.map((farm) => composeBook(practice, farm, demoDay)),
    { ...composeBook(fullPractice, fullFarm, '2026-03-10'), slug: 'every-field' },
    composeBook(
      { business: {}, narrative: '', farms: [] },
      { ...farmWith([]), slug: 'empty', farm: { farm: 'Empty Fold', language: 'en-US' }, narrative: '' },
      demoDay,
    ),
  ];
  const folder = mkdtempSync(join(tmpdir(), 'growdown-books-'));
  const books: BookOnDisk[] = [];
  for (const page of pages) {
    const html = await renderBook(page);
    const file = join(folder, `${page.slug}.html`);
    writeFileSync(file, html);
    books.push({ name: page.slug, address: pathToFileURL(file).href, html, paper: page.paper });
  }
  return books;
}

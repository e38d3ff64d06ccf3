import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { countSheets, datedOn, openPrinter } from '../../src/pdf/open-printer.js';
import { type BookOnDisk, booksOnDisk } from '../browser/books-on-disk.js';
import { browserProgram, openBrowser } from '../browser/find-browser.js';
import { inPage } from '../browser/in-page.js';
import { withPage } from '../browser/with-page.js';
import { type PdfRead, readPdf } from './read-pdf.js';
import { lettersOf, notWhole } from './whole-on-a-sheet.js';

interface Printed {
  readonly parts: string[];
  readonly headings: string[];
  readonly next: string[];
  readonly cases: { readonly number: string; readonly start: string; readonly stands: string }[];
  readonly words: string[];
  readonly figures: number;
}

const sizes = { A4: [595, 842], Letter: [612, 792] };

// What every field filled looks like on paper, and a farm without animals, is seen on A4; the demo's books on both.
describe.each([
  { paper: 'A4', count: 5 },
  { paper: 'Letter', count: 3 },
] as const)('$paper', ({ paper, count }) => {
  const books: { book: BookOnDisk; pdf: Uint8Array; read: PdfRead; page: Printed }[] = [];
  let browser: Browser;

  beforeAll(async () => {
    browser = await openBrowser();
    const printer = await openPrinter({ browser: await browserProgram() });
    for (const book of (await booksOnDisk(paper)).slice(0, count)) {
      const pdf = await printer.print(book.html);
      const page = await withPage(browser, book, {}, async (opened) => {
        await opened.emulateMedia({ media: 'print' });
        await opened.evaluate(inPage.unfold);
        return opened.evaluate<Printed>(inPage.printed);
      });
      books.push({ book, pdf, read: await readPdf(pdf), page });
    }
    await printer.close();
  }, 300_000);
  afterAll(() => browser?.close());

  test('sheets are of the farm’s paper, counted, and each says farm, day and its number of how many', () => {
    expect(books.slice(0, 3).map(({ book }) => book.name)).toEqual([
      'harrowmere',
      'quasselbrook',
      'quernholt',
    ]);
    expect(books).toHaveLength(count);
    for (const { book, pdf, read } of books) {
      const pages = read.sheets.length;
      console.log(`${book.name}: ${pages} pages of ${paper}`);
      expect(countSheets(pdf), book.name).toBe(pages);
      for (const [index, { size, untagged }] of read.sheets.entries()) {
        expect(size.map(Math.round)).toEqual(sizes[paper]);
        expect(untagged).toContain(`${index + 1} / ${pages}`);
        expect(untagged).toContain(book.farm.farm.farm);
        expect(untagged).toContain(book.today.slice(0, 4));
      }
    }
  });

  test('each cow begins on a front, and her two sides and no others say in their margin whose they are and her status', () => {
    for (const { book, read, page } of books) {
      const owned = page.cases.map(({ number, stands, start }) => {
        const begun = read.sheets.findIndex(({ tagged }) => closeUp(tagged).startsWith(closeUp(start)));
        expect(begun % 2, `${book.name}: ${number}`).toBe(0);
        expect(begun, `${book.name}: ${number}`).toBeGreaterThan(0);
        const mark = closeUp(`${number} · ${stands} · `);
        const sides = read.sheets.flatMap(({ untagged }, at) => (closeUp(untagged).includes(mark) ? [at] : [])); // prettier-ignore
        expect(sides, `${book.name}: ${number}`).toEqual([begun, begun + 1]);
        return begun;
      });
      expect(owned, book.name).toEqual(owned.map((_, at) => 2 + 2 * at));
      expect(read.sheets.length, book.name).toBe(2 + 2 * owned.length);
    }
  });

  test('it is tagged, and its outline is the headings, each animal among them', () => {
    for (const { book, read, page } of books) {
      expect(read.isMarked, book.name).toBe(true);
      expect(
        read.outline.map(({ title }) => closeUp(title)),
        book.name,
      ).toEqual(page.headings.map(closeUp));
      const titles = new Set(read.outline.map(({ title }) => title));
      for (const { animal } of book.farm.cases) expect(titles).toContain(animal.animal);
    }
  });

  test('every word of the page is on paper, each cow’s after the one before', () => {
    for (const { book, read, page } of books) {
      const letters = lettersOf(read.sheets.map(({ tagged }) => tagged).join(''));
      expect(
        page.words.filter((word) => !letters.includes(lettersOf(word))),
        book.name,
      ).toEqual([]);
      const text = closeUp(read.sheets.map(({ tagged }) => tagged).join(''));
      const starts = page.cases.map(({ start }) => text.indexOf(closeUp(start)));
      expect(starts, book.name).toEqual(starts.toSorted((one, other) => one - other));
      expect(starts, book.name).not.toContain(-1);
    }
  });

  test('no row, figure, entry or box is split, and no heading is alone at the foot', () => {
    for (const { book, read, page } of books) {
      const sheets = read.sheets.map(({ tagged }) => tagged);
      expect(page.parts.length, book.name).toBeGreaterThan(book.farm.cases.length > 0 ? 20 : 5);
      expect(notWhole(page.parts, sheets), book.name).toEqual([]);
      expect(notWhole(page.headings, sheets, page.next), `${book.name}, headings`).toEqual([]);
      expect(
        read.sheets.reduce((sum, { figures }) => sum + figures, 0),
        `${book.name}: a figure on two sheets is met twice`,
      ).toBe(page.figures);
    }
  });
});

test('a book whose rows may break is found out', async () => {
  const book = (await booksOnDisk()).find(({ name }) => name === 'quernholt')!;
  const browser = await openBrowser();
  const printer = await openPrinter({ browser: await browserProgram() });
  const loose = book.html.replace(
    '</style>',
    '@media print{*{break-inside:auto!important;break-after:auto!important;break-before:auto!important;orphans:1!important;widows:1!important}}</style>',
  );
  const page = await withPage(browser, book, {}, async (opened) => {
    await opened.emulateMedia({ media: 'print' });
    await opened.evaluate(inPage.unfold);
    return opened.evaluate<Printed>(inPage.printed);
  });
  const policy = /<meta http-equiv="Content-Security-Policy"[^>]*>/;
  const { sheets } = await readPdf(await printer.print(loose.replace(policy, '')));
  const text = sheets.map(({ tagged }) => tagged);
  expect(notWhole(page.parts, text).length).toBeGreaterThan(0);
  await Promise.all([printer.close(), browser.close()]);
}, 60_000);

test('a book printed later says the same of itself: its own day, not the moment of printing', async () => {
  const book = (await booksOnDisk()).find(({ name }) => name === 'empty')!;
  const printer = await openPrinter({ browser: await browserProgram() });
  const first = await printer.print(book.html);
  await new Promise((resolve) => setTimeout(resolve, 1100));
  const second = await printer.print(book.html);
  await printer.close();
  expect(Buffer.from(first).equals(second), 'the moment of printing differs').toBe(false);
  for (const pdf of [first, second]) {
    const dated = Buffer.from(datedOn(pdf, book.today)).toString('latin1');
    const days = [...dated.matchAll(/\/(?:CreationDate|ModDate) \(D:(\d{14})/g)].map(([, moment]) => moment);
    expect(days).toEqual(Array.from({ length: 2 }, () => `${book.today.replaceAll('-', '')}000000`));
  }
  expect(await readPdf(second)).toEqual(await readPdf(first));
}, 60_000);

/** Without spaces and breaks, which differ between page and paper. */
function closeUp(text: string): string {
  return text.normalize('NFKC').replaceAll(/[\s\u00AD]/g, '');
}

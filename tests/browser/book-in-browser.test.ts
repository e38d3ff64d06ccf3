import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { annexesOnDisk, booksOnDisk, type BookOnDisk } from './books-on-disk.js';
import { openBrowser } from './find-browser.js';
import { inPage } from './in-page.js';
import { withPage } from './with-page.js';

let browser: Browser;
let books: BookOnDisk[];
/** The books, and the annex of each. */
let pages: BookOnDisk[];

/** Width of the printed column, CSS pixels: the sheet less 16 mm on either side. */
const columnPx = { A4: ((210 - 32) / 25.4) * 96, Letter: ((215.9 - 32) / 25.4) * 96 };

beforeAll(async () => {
  [browser, books] = await Promise.all([openBrowser(), booksOnDisk()]);
  pages = [...books, ...(await annexesOnDisk())];
}, 120_000);
afterAll(() => browser?.close());

test('there are books to look at', () => {
  expect(books.map(({ name }) => name)).toEqual([
    'harrowmere',
    'quasselbrook',
    'quernholt',
    'every-field',
    'empty',
  ]);
});

test('a book opens from disk with scripts off, asks for nothing and holds no script', async () => {
  for (const book of pages) {
    await withPage(browser, book, { javaScriptEnabled: false }, async (page, asked) => {
      expect(await page.locator('h1').count(), book.name).toBe(1);
      expect(await page.locator('script, link, iframe, object, embed, form, canvas').count()).toBe(0);
      expect(asked.filter((url) => url !== book.address)).toEqual([]);
    });
  }
});

test('with scripts on nothing is refused by the policy, and nothing scrolls sideways at 320 px, folded or unfolded', async () => {
  for (const book of pages) {
    await withPage(browser, book, { viewport: { width: 320, height: 640 } }, async (page, _, said) => {
      expect(said, book.name).toEqual([]);
      expect(await page.evaluate(inPage.bodyMargin), 'its own style is let through').toBe('0px');
      expect(await page.evaluate(inPage.picturesNotShown), book.name).toEqual([]);
      expect(await page.evaluate(inPage.width), book.name).toBeLessThanOrEqual(320);
      await page.evaluate(inPage.unfold);
      expect(await page.evaluate(inPage.width), `${book.name}, unfolded`).toBeLessThanOrEqual(320);
    });
  }
}, 60_000);

test('on paper nothing is wider than the column, and nothing hides what it holds', async () => {
  for (const book of pages) {
    const width = Math.floor(columnPx[book.paper]);
    const wide = await withPage(browser, book, { viewport: { width, height: 1000 } }, async (page) => {
      await page.emulateMedia({ media: 'print' });
      return page.evaluate(inPage.outOfColumn(width));
    });
    expect(wide, book.name).toEqual([]);
  }
}, 60_000);

test('page one of a farm with fourteen open cases stands on one sheet of A4', async () => {
  const book = books.find(({ name }) => name === 'quernholt')!;
  const sheet = ((297 - 16 - 18) / 25.4) * 96;
  const size = { width: Math.floor(columnPx.A4), height: 1000 };
  await withPage(browser, book, { viewport: size }, async (page) => {
    await page.emulateMedia({ media: 'print' });
    const first = await page.locator('.first').boundingBox();
    expect(first!.y + first!.height).toBeGreaterThan(sheet / 2);
    expect(first!.y + first!.height).toBeLessThanOrEqual(sheet);
    expect(await page.evaluate(`getComputedStyle(document.querySelector('#herd')).breakBefore`)).toBe('page');
  });
});

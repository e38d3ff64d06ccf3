import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { roomOn } from '../../src/book/fit.js';
import type { Paper } from '../../src/record/words.js';
import { annexesOnDisk, booksOnDisk, type BookOnDisk } from './books-on-disk.js';
import { openBrowser } from './find-browser.js';
import { inPage } from './in-page.js';
import { withPage } from './with-page.js';

let browser: Browser;
let books: BookOnDisk[];
/** The books, and the annex of each. */
let pages: BookOnDisk[];

/** Width of the printed column, CSS pixels. */
const columnPx = (paper: Paper) => Math.floor((roomOn(paper).widthMm / 25.4) * 96);

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
    const width = columnPx(book.paper);
    const wide = await withPage(browser, book, { viewport: { width, height: 1000 } }, async (page) => {
      await page.emulateMedia({ media: 'print' });
      return page.evaluate(inPage.outOfColumn(width));
    });
    expect(wide, book.name).toEqual([]);
  }
}, 60_000);

/** A phone, CSS pixels. */
const phone = { width: 375, height: 812 };

/** Links, fold boxes and summaries that a thumb may miss: neither they nor what they are in or belong to is 44 px. */
const tooSmall = `(() => {
  const isShown = (element) => element.checkVisibility() && element.getBoundingClientRect().width > 0;
  const sizeOf = (element) => {
    const box = element.getBoundingClientRect();
    const after = getComputedStyle(element, '::after');
    const row = after.content !== 'none' && after.position === 'absolute' ? element.closest('tr, li').getBoundingClientRect() : box;
    return [Math.max(box.width, row.width), Math.max(box.height, row.height)];
  };
  return [...document.querySelectorAll('main a[href], main summary, label.unfold-label, main button')]
    .filter(isShown)
    .map((element) => [element.outerHTML.slice(0, 90), ...sizeOf(element).map(Math.round)])
    .filter(([, width, height]) => width < 44 || height < 44)
    .map((found) => found.join(' '));
})()`;

test('on a phone page one and each cow take at most three screens, the rest folded', async () => {
  const long: string[] = [];
  for (const book of books.slice(0, 3)) {
    await withPage(browser, book, { viewport: phone }, async (page) => {
      const heights = await page.evaluate<[string, number][]>(
        `[...document.querySelectorAll('.page-one, article.cow')].map((one) => [one.id, one.getBoundingClientRect().height])`,
      );
      expect(heights.length).toBe(1 + book.farm.cases.length);
      for (const [id, height] of heights)
        if (height > 3 * phone.height) long.push(`${book.name} ${id}: ${(height / phone.height).toFixed(2)} screens`); // prettier-ignore
    });
  }
  expect(long).toEqual([]);
});

test('on a phone nothing scrolls sideways at 360 px, page or part, and no drawing is wider than the screen', async () => {
  for (const book of books) {
    await withPage(browser, book, { viewport: { width: 360, height: 780 } }, async (page) => {
      await page.evaluate(inPage.unfold);
      expect(await page.evaluate(inPage.width), book.name).toBeLessThanOrEqual(360);
      expect(await page.evaluate(inPage.outOfColumn(360)), book.name).toEqual([]);
      const wide = await page.evaluate(
        `[...document.querySelectorAll('main svg')].filter((one) => one.checkVisibility() && one.getBoundingClientRect().right > 361).map((one) => one.outerHTML.slice(0, 120))`,
      );
      expect(wide, book.name).toEqual([]);
    });
  }
}, 60_000);

test('on a phone whatever is touched is at least 44 px either way, folded and unfolded', async () => {
  const small: string[] = [];
  for (const book of books.slice(0, 4)) {
    await withPage(browser, book, { viewport: phone }, async (page) => {
      small.push(...(await page.evaluate<string[]>(tooSmall)));
      await page.evaluate(inPage.unfold);
      small.push(...(await page.evaluate<string[]>(tooSmall)));
    });
  }
  expect([...new Set(small)]).toEqual([]);
}, 60_000);

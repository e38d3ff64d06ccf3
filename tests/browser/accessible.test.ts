import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { annexesOnDisk, booksOnDisk, type BookOnDisk } from './books-on-disk.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';
import { withPage } from './with-page.js';

let browser: Browser;
let books: BookOnDisk[];
let pages: BookOnDisk[];

/** WCAG 2.2 AA and what axe holds for good practice. */
/** Every book as a phone and as a wide screen show it, by day and by night. */
const looks = (['light', 'dark'] as const).flatMap((colorScheme) =>
  [320, 1280].map((width) => ({ colorScheme, width })),
);

beforeAll(async () => {
  [browser, books] = await Promise.all([openBrowser(), booksOnDisk()]);
  const annexes = await annexesOnDisk();
  pages = [...books, ...annexes.filter((one) => one.farm.slug === 'quernholt')];
}, 120_000);
afterAll(() => browser?.close());

test('axe finds nothing against WCAG 2.2 AA in any book or annex, unfolded, light and dark, 320 and 1280 px wide', async () => {
  for (const book of pages) {
    const found = await withPage(browser, book, {}, async (page) => {
      await page.evaluate(inPage.unfold);
      await page.evaluate(axe);
      const said: unknown[] = [];
      // One loading serves all four: axe looks anew each time, and a book has no script that could remember.
      for (const { colorScheme, width } of looks) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 900 });
        for (const finding of await page.evaluate<string[]>(axeOver(allRules)))
          said.push(`${colorScheme} ${width}: ${finding}`);
      }
      return said;
    });
    expect(found, book.name).toEqual([]);
  }
}, 400_000);

test.each(looks)(
  'axe would find a text too pale to read: $colorScheme $width',
  async (look) => {
    const { colorScheme, width } = look;
    const options = { colorScheme, viewport: { width, height: 900 } };
    const found = await withPage(browser, books.at(-1)!, options, async (page) => {
      await page.evaluate(
        `document.querySelector('h1').style.color = '${colorScheme === 'dark' ? '#333' : '#ddd'}'`,
      );
      await page.evaluate(axe);
      return page.evaluate(axeOver(allRules));
    });
    expect(found).toHaveLength(1);
  },
  60_000,
);

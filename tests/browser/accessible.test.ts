import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { booksOnDisk, type BookOnDisk } from './books-on-disk.js';
import { openBrowser } from './find-browser.js';
import { axeOver, inPage } from './in-page.js';
import { withPage } from './with-page.js';

let browser: Browser;
let books: BookOnDisk[];
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** WCAG 2.2 AA and what axe holds for good practice. */
const allRules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
/** All that hangs on colours: in the dark nothing else of a page differs. */
const colourRules = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };

beforeAll(async () => {
  [browser, books] = await Promise.all([openBrowser(), booksOnDisk()]);
}, 120_000);
afterAll(() => browser?.close());

test.each([
  ['light', 320, allRules],
  ['light', 1280, allRules],
  // No colour hangs on the width (tests/book/book-style.test.ts), so the narrow page speaks for the wide one.
  ['dark', 320, colourRules],
] as const)(
  'axe finds nothing against WCAG 2.2 AA: %s, %i px',
  async (colorScheme, width, rules) => {
    for (const book of books) {
      const options = { colorScheme, viewport: { width, height: 900 } };
      const found = await withPage(browser, book, options, async (page) => {
        if (width === 320) await page.evaluate(inPage.unfold);
        await page.evaluate(axe);
        return page.evaluate(axeOver(rules));
      });
      expect(found, book.name).toEqual([]);
    }
  },
  240_000,
);

test('axe would find a text too pale to read', async () => {
  const found = await withPage(browser, books[0]!, { colorScheme: 'dark' }, async (page) => {
    await page.evaluate(`document.querySelector('h1').style.color = '#333'`);
    await page.evaluate(axe);
    return page.evaluate(axeOver(colourRules));
  });
  expect(found).toHaveLength(1);
}, 60_000);

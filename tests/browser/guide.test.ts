import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { renderGuide } from '../../src/guide/compose-guide.js';
import { papers } from '../../src/record/words.js';
import { allRules, axe, axeOver } from './axe.js';
import { openBrowser } from './find-browser.js';
import { inPage } from './in-page.js';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
}, 120_000);
afterAll(() => browser?.close());

async function guide(paper: 'A4' | 'Letter', asked: string[] = []): Promise<Page> {
  const page = await browser.newPage();
  page.on('request', (request) => asked.push(request.url()));
  await page.setContent(renderGuide(paper));
  return page;
}

test('the guide: axe finds nothing, nothing scrolls sideways, every picture is shown, nothing is asked for', async () => {
  const asked: string[] = [];
  const page = await guide('A4', asked);
  await page.evaluate(axe);
  for (const colorScheme of ['light', 'dark'] as const)
    for (const width of [320, 1280]) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(inPage.width), `${width}`).toBe(width);
      expect(await page.evaluate<string[]>(axeOver(allRules)), `${colorScheme} ${width}`).toEqual([]);
    }
  expect(await page.evaluate(inPage.picturesNotShown)).toEqual([]);
  expect(asked.filter((address) => !address.startsWith('data:'))).toEqual([]);
  await page.close();
}, 200_000);

test.each(papers)(
  'the guide on %s: no cell runs into the next, no type is under 7.5 pt, and it is printed whole',
  async (paper) => {
    const page = await guide(paper);
    await page.setViewportSize({ width: paper === 'A4' ? 703 : 725, height: 1000 });
    await page.emulateMedia({ media: 'print' });
    const { numPages } = await getDocument({
      data: new Uint8Array(await page.pdf({ preferCSSPageSize: true })),
      verbosity: 0,
    }).promise;
    expect(numPages).toBeGreaterThan(20);
    expect(numPages).toBeLessThan(40);
    expect(await page.evaluate(inPage.outOfColumn(paper === 'A4' ? 703 : 725))).toEqual([]);
    expect(await page.evaluate<number>(smallestPx)).toBeGreaterThanOrEqual(10);
    await page.close();
  },
  120_000,
);

/** 7.5 pt are 10 px; drawings keep their own sizes. */
const smallestPx = `Math.min(...[...document.querySelectorAll('main *')]
  .filter((one) => !one.closest('svg') && [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()))
  .filter((one) => one.getBoundingClientRect().height > 0)
  .map((one) => parseFloat(getComputedStyle(one).fontSize)))`;

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeOverview, renderOverview } from '../../src/overview/compose-overview.js';
import { composeRound, renderRound } from '../../src/round/page/compose-round.js';
import { roundOf, workOfFarms } from '../../src/round/round-of.js';
import { readDemoPractice } from '../round/demo-farms.js';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';

const today = '2026-06-16';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
}, 120_000);
afterAll(() => browser?.close());

/** The round as planned, the round of days that hold none of the visits, and the overview. */
function pages(): Record<string, string> {
  const practice = readDemoPractice(today);
  const { business } = practice;
  const pooled = pooledOn(practice, today);
  const work = workOfFarms(practice.farms, { business, today, priors: pooled.priors });
  const round = (days: { to?: string }) =>
    renderRound(composeRound(roundOf(work, days, today), { business, days, today, refused: ['brokenfold'] }));
  return {
    round: round({}),
    'round apart': round({ to: '2026-06-21' }),
    overview: renderOverview(composeOverview(practice, work, pooled, today)),
  };
}

test('round and overview: axe finds nothing, nothing is cut off or scrolls sideways, nothing is asked for', async () => {
  for (const [name, html] of Object.entries(pages())) {
    const page = await browser.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.setContent(html);
    await page.evaluate(inPage.unfold);
    await page.evaluate(axe);
    for (const colorScheme of ['light', 'dark'] as const)
      for (const width of [320, 1280]) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 900 });
        expect(await page.evaluate(inPage.width), `${name} ${width}`).toBe(width);
        expect(await page.evaluate<string[]>(axeOver(allRules)), `${name} ${colorScheme} ${width}`).toEqual(
          [],
        );
      }
    expect(asked, name).toEqual([]);
    await page.close();
  }
}, 120_000);

test('on paper the round of three farms is two sides, the overview three; no cell runs into the next, no type is under 7.5 pt', async () => {
  const sides = { round: 2, 'round apart': 1, overview: 3 };
  for (const [name, html] of Object.entries(pages())) {
    const page = await browser.newPage({ viewport: { width: 703, height: 1000 } });
    await page.setContent(html);
    await page.emulateMedia({ media: 'print' });
    const printed = await getDocument({
      data: new Uint8Array(await page.pdf({ preferCSSPageSize: true })),
      verbosity: 0,
    }).promise;
    expect(printed.numPages, name).toBe(sides[name as keyof typeof sides]);
    expect(await page.evaluate<string[]>(tooWide), name).toEqual([]);
    expect(await page.evaluate<number>(smallestPx), name).toBeGreaterThanOrEqual(10);
    await page.close();
  }
}, 120_000);

test('a tab stop is only where something may scroll', async () => {
  for (const [name, html] of Object.entries(pages())) {
    const page = await browser.newPage();
    await page.setContent(html);
    await page.evaluate(inPage.unfold);
    expect(await page.locator('[tabindex]').count(), name).toBe(0);
    for (const width of [320, 641, 1280]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate<string[]>(scrolled), `${name} ${width}`).toEqual([]);
    }
    await page.close();
  }
}, 120_000);

const tooWide = `[...document.querySelectorAll('th,td')]
  .filter((cell) => cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.textContent.trim())`;
const scrolled = `[...document.querySelectorAll('.table')]
  .filter((table) => table.scrollWidth > table.clientWidth + 1).map((table) => table.textContent.trim().slice(0, 40))`;
/** 7.5 pt are 10 px; drawings keep their own sizes. */
const smallestPx = `Math.min(...[...document.querySelectorAll('main *')]
  .filter((one) => !one.closest('svg') && [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()))
  .filter((one) => one.getBoundingClientRect().height > 0)
  .map((one) => parseFloat(getComputedStyle(one).fontSize)))`;

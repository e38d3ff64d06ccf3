import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { HandoverPage } from '../../src/handover/page-of-handover.js';
import { roomOn } from '../../src/book/fit.js';
import { partHeights } from '../../src/handover/room-on-page.js';
import { renderHandover } from '../../src/handover/render-handover.js';
import { papers } from '../../src/record/words.js';
import {
  farmOf,
  handoverOf,
  longestBusiness,
  longestFarm,
  longestRecord,
  today,
} from '../handover/a-handover.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';
import { htmlFindings } from '../book/html-findings.js';

const folder = mkdtempSync(join(tmpdir(), 'growdown-handovers-'));
const ask = 'Is it safe to open the pocket further, or does she need you first? '.repeat(4).slice(0, 300);
let browser: Browser;
let all: ReturnType<typeof pages>;

beforeAll(async () => {
  browser = await openBrowser();
  all = pages();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Demo cases that say much and little, and the longest record anybody could write, on either paper. */
function pages(): { name: string; page: HandoverPage }[] {
  const { practice } = readPractice(nodeCaseFiles, 'cases', { today });
  const quernholt = practice.farms.find(({ slug }) => slug === 'quernholt')!;
  const { business } = practice;
  return papers.flatMap((paper) => {
    const farm = { ...quernholt, farm: { ...quernholt.farm, paper } };
    const longest = farmOf(longestRecord(), { ...longestFarm, paper });
    const demo = ['2155', '2086', '2244'].map((slug) => ({
      name: `${slug} ${paper}`,
      page: handoverOf(farm, { business, ask, slug }),
    }));
    return [
      ...demo,
      {
        name: `longest ${paper}`,
        page: handoverOf(longest, { business: longestBusiness, ask: 'word '.repeat(60) }),
      },
    ];
  });
}

async function onPage<T>(page: HandoverPage, look: (open: Page) => Promise<T>): Promise<T> {
  const file = join(folder, 'handover.html');
  writeFileSync(file, renderHandover(page));
  const context = await browser.newContext();
  try {
    const open = await context.newPage();
    await open.goto(pathToFileURL(file).href);
    return await look(open);
  } finally {
    await context.close();
  }
}

test('one sheet on either paper, whatever the record holds, with room to write on', async () => {
  for (const { name, page } of all) {
    const { pdf, ruledPx } = await onPage(page, async (open) => {
      await open.emulateMedia({ media: 'print' });
      return {
        pdf: await open.pdf({ preferCSSPageSize: true }),
        ruledPx: await open.evaluate<number>(
          'document.querySelector(".ruled").getBoundingClientRect().height',
        ),
      };
    });
    const printed = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
    expect(printed.numPages, name).toBe(1);
    // Two lines of 8 mm at least: 16 mm are 60 px.
    expect(ruledPx, name).toBeGreaterThan(60);
  }
}, 180_000);

test('the sum of what fits is never less than a browser needs', async () => {
  const parts = { head: '.cow-head', parties: '.parties', boxes: '#why', lesions: '.lesions', figure: '.cow-figure', history: '.history', state: '.state-row', treatments: '.treatments', foot: '.foot' }; // prettier-ignore
  for (const { name, page } of all) {
    const sum = partHeights(page);
    await onPage(page, async (open) => {
      await open.emulateMedia({ media: 'print' });
      await open.setViewportSize({
        width: Math.round(roomOn(page.paper).widthMm * (96 / 25.4)),
        height: 1000,
      });
      for (const [part, selector] of Object.entries(parts)) {
        const px = await open.evaluate<number>(
          `document.querySelector(${JSON.stringify(selector)})?.getBoundingClientRect().height ?? 0`,
        );
        // A tenth of a millimetre is rounding.
        expect(sum[part], `${name}: ${part}`).toBeGreaterThan(px / (96 / 25.4) - 0.1);
      }
    });
  }
}, 120_000);

test('html-validate and axe find nothing, and nothing runs out of a phone’s width', async () => {
  for (const { name, page } of all.filter((one) => /2155 A4|2244 A4|longest A4/.test(one.name))) {
    expect(await htmlFindings(renderHandover(page)), name).toEqual([]);
    await onPage(page, async (open) => {
      await open.evaluate(axe);
      for (const width of [320, 1280]) {
        await open.setViewportSize({ width, height: 900 });
        expect(await open.evaluate<string[]>(axeOver(allRules)), `${name} ${width}`).toEqual([]);
        expect(await open.evaluate<number>(inPage.width), `${name} ${width}`).toBeLessThanOrEqual(width);
      }
    });
  }
}, 120_000);

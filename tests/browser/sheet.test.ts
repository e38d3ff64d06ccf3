import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { composeBlankSheet, composeSheet } from '../../src/form/sheet/compose-sheet.js';
import { renderSheet } from '../../src/form/sheet/render-sheet.js';
import type { SheetPage, SheetSide } from '../../src/form/sheet/sheet-page.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { Paper } from '../../src/record/words.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';
import { htmlFindings } from '../book/html-findings.js';

const today = '2026-06-16';
const folder = mkdtempSync(join(tmpdir(), 'growdown-sheets-'));
let browser: Browser;
let sheets: { name: string; address: string; page: SheetPage; html: string }[];

/** All cases of the demo, the closed ones too, on either paper, and the blank sheet. */
function makeSheets(): typeof sheets {
  const { practice } = readPractice(nodeCaseFiles, 'cases', { today });
  const pooled = pooledOn(practice, today);
  const papers: Paper[] = ['A4', 'Letter'];
  const pages = papers.flatMap((paper) => {
    const farms = practice.farms.map((farm) =>
      composeSheet({
        farm: { ...farm, farm: { ...farm.farm, paper } },
        language: farm.farm.language ?? 'en-GB',
        day: today,
        today,
        pictures: new Map(
          farm.cases.map(({ slug }) => [
            slug,
            {
              last: { photo: { file: 'x.jpg' }, day: today },
              made: { base64: dot, widthPx: 420, heightPx: 315 },
            },
          ]),
        ),
        work: farm.cases.map((record) =>
          workOutCase(farm, record, {
            business: practice.business,
            today,
            prior: pooled.priors.priorOf(farm.slug, record.slug),
          }),
        ),
      }),
    );
    // One document for all farms: a browser prints it at once.
    const all = { ...farms[0]!, leaves: farms.flatMap(({ leaves }) => leaves) };
    return [
      { name: `all ${paper}`, page: all },
      { name: `few ${paper}`, page: { ...all, leaves: all.leaves.slice(0, 2) } },
      { name: `blank ${paper}`, page: composeBlankSheet(undefined, 'en-GB', paper, today) },
    ];
  });
  return pages.map(({ name, page }) => {
    const file = join(folder, `${name}.html`);
    const html = renderSheet(page);
    writeFileSync(file, html);
    return { name, address: pathToFileURL(file).href, page, html };
  });
}

/** The smallest picture: its size on the page is what its width and height say. */
const dot = 'R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7';

beforeAll(async () => {
  browser = await openBrowser();
  sheets = makeSheets();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function withSheet<T>(address: string, look: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext();
  try {
    const page = await context.newPage();
    await page.goto(address);
    return await look(page);
  } finally {
    await context.close();
  }
}

test('every side is one printed page and begins with the animal it is of; an animal begins on a front', async () => {
  for (const { name, address, page } of sheets.filter((one) => !one.name.startsWith('few'))) {
    const pdf = await withSheet(address, (open) => open.pdf({ preferCSSPageSize: true }));
    const printed = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
    // An odd leaf that another follows has an empty side after it.
    expect(page.leaves.some((leaf) => leaf.sides.length % 2 === 1) || !name.startsWith('all'), name).toBe(
      true,
    );
    const sides = page.leaves.flatMap<SheetSide | undefined>((leaf, at) =>
      leaf.sides.length % 2 === 0 || at === page.leaves.length - 1 ? leaf.sides : [...leaf.sides, undefined],
    );
    expect(printed.numPages, name).toBe(sides.length);
    for (const [at, side] of sides.entries()) {
      const { items } = await (await printed.getPage(at + 1)).getTextContent();
      const text = items.map((item) => ('str' in item ? item.str : '')).join('');
      if (side) expect(text.startsWith(side.heading), `${name}, page ${at + 1}`).toBe(true);
      else expect(text, `${name}, page ${at + 1}`).toBe('');
    }
  }
}, 120_000);

test('html-validate and axe find nothing, and nothing runs out of a phone’s width', async () => {
  for (const { name, address, html } of sheets.filter((one) => /few A4|blank A4/.test(one.name))) {
    expect(await htmlFindings(html), name).toEqual([]);
    await withSheet(address, async (page) => {
      await page.evaluate(axe);
      for (const width of [320, 1280]) {
        await page.setViewportSize({ width, height: 900 });
        expect(await page.evaluate<string[]>(axeOver(allRules)), `${name} ${width}`).toEqual([]);
        expect(await page.evaluate<number>(inPage.width), `${name} ${width}`).toBeLessThanOrEqual(width);
      }
    });
  }
}, 120_000);

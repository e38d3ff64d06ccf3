import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import * as fc from 'fast-check';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { roomOn } from '../../src/book/fit.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { staffPages } from '../../src/post/staff-page.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import { type Paper, papers, staffLanguages } from '../../src/record/words.js';
import { anyBusyFarm, practiceWith, today } from '../book/busy-cows.js';
import { readPdf } from '../pdf/read-pdf.js';
import { readDemoPractice } from '../round/demo-farms.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
}, 60_000);
afterAll(() => browser?.close());

function pagesOf(practice: Practice, record: FarmRecord, paper: Paper) {
  const farm = { ...record, farm: { ...record.farm, paper, 'staff-languages': [...staffLanguages] } };
  return staffPages(practice, farm, today, pooledOn(practice, today));
}

const demo = readDemoPractice(today);

/** Sides of a page, the height of what it holds, and what it does not hold whole, in print. */
async function printed(html: string, paper: Paper) {
  const file = join(inject('folder'), 'staff.html');
  writeFileSync(file, html);
  const width = Math.round((roomOn(paper).widthMm * 96) / 25.4);
  const page = await browser.newPage({ viewport: { width, height: 1000 } });
  try {
    await page.goto(pathToFileURL(file).href);
    const { sheets } = await readPdf(await page.pdf({ preferCSSPageSize: true }));
    await page.emulateMedia({ media: 'print' });
    const mm = await page.evaluate<number>(`document.querySelector('main').getBoundingClientRect().height * 25.4 / 96`);
    return { sides: sheets.length, mm };
  } finally {
    await page.close();
  }
}

test.each(papers)('the list takes one side for the farms of the demo and for fourteen busy cows: %s', async (paper) => {
  const busy = fc.sample(anyBusyFarm(paper, 14), { seed: 20260616, numRuns: 6 });
  const said: string[] = [];
  for (const [practice, farm] of [
    ...demo.farms.map((farm) => [demo, farm] as const),
    ...busy.map((farm) => [practiceWith(farm), farm] as const),
  ])
    for (const { name, html } of pagesOf(practice, farm, paper)) {
      const { sides, mm } = await printed(html, paper);
      console.log(name, sides, mm.toFixed(1), html.includes('staff large'), farm.cases.length);
      if (sides !== 1 || mm > roomOn(paper).heightMm) said.push(`${name}: ${sides} sides, ${mm.toFixed(1)} mm`);
    }
  expect(said).toEqual([]);
}, 240_000);

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
import { allRules, axe, axeOver } from './axe.js';
import { openBrowser } from './find-browser.js';
import { inPage } from './in-page.js';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
}, 60_000);
afterAll(() => browser?.close());

const demo = readDemoPractice(today);
const quernholt = demo.farms.find(({ slug }) => slug === 'quernholt')!;
const busy = (paper: Paper) => fc.sample(anyBusyFarm(paper, 14), { seed: 20260616, numRuns: 6 });

/** The lists of a farm in every language, each by a name and written where a browser can open it. */
function listsOf(practice: Practice, record: FarmRecord, paper: Paper) {
  const farm = { ...record, farm: { ...record.farm, paper, 'staff-languages': [...staffLanguages] } };
  return staffPages(practice, farm, today, pooledOn(practice, today)).map(({ name, html }) => {
    const file = join(inject('folder'), `${name}.html`);
    writeFileSync(file, html);
    return { name, address: pathToFileURL(file).href };
  });
}

test.each(papers)(
  'a list takes one side for the farms of the demo and for fourteen busy cows: %s',
  async (paper) => {
    const { widthMm, heightMm } = roomOn(paper);
    const page = await browser.newPage({
      viewport: { width: Math.round((widthMm * 96) / 25.4), height: 1000 },
    });
    const said: string[] = [];
    for (const [practice, farm] of [
      ...demo.farms.map((one) => [demo, one] as const),
      ...busy(paper).map((one) => [practiceWith(one), one] as const),
    ])
      for (const { name, address } of listsOf(practice, farm, paper)) {
        await page.emulateMedia({ media: null });
        await page.goto(address);
        const { sheets } = await readPdf(await page.pdf({ preferCSSPageSize: true }));
        await page.emulateMedia({ media: 'print' });
        const mm = await page.evaluate<number>(
          `document.querySelector('main').getBoundingClientRect().height * 25.4 / 96`,
        );
        if (sheets.length !== 1 || mm > heightMm || mm < heightMm / 2)
          said.push(`${name}: ${sheets.length} sides, ${mm.toFixed(1)} mm of ${heightMm}`);
      }
    expect(said).toEqual([]);
    await page.close();
  },
  240_000,
);

test('axe finds nothing, a phone need not scroll sideways, nothing is asked for', async () => {
  const [stopped] = busy('A4').filter(({ farm, cases }) => farm && cases.length === 14);
  for (const { name, address } of [
    ...listsOf(demo, quernholt, 'A4'),
    ...listsOf(practiceWith(stopped!), stopped!, 'A4').slice(0, 1),
  ]) {
    const page = await browser.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(address);
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
    expect(asked, name).toEqual([address]);
    await page.close();
  }
}, 120_000);

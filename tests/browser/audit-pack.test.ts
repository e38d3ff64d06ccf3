import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { auditFiles } from '../../src/audit/audit-files.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { countSheets } from '../../src/pdf/open-printer.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { fullFarm, fullPractice } from '../book/full-practice.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';
import { htmlFindings } from '../book/html-findings.js';

const demo = fileURLToPath(new URL('../../cases', import.meta.url));
const period = { from: '2026-01-01', to: '2026-12-31' };

let browser: Browser;
let packs: { name: string; html: string; address: string }[];
let folder: string;

beforeAll(async () => {
  browser = await openBrowser();
  folder = mkdtempSync(join(tmpdir(), 'growdown-audit-'));
  const { practice } = readPractice(nodeCaseFiles, demo, { today: '2026-06-16' });
  const made = [
    ...practice.farms.map((farm) => ({ of: practice, farm, today: '2026-06-16' })),
    { of: fullPractice, farm: { ...fullFarm, slug: 'every-field' }, today: '2026-03-10' },
  ];
  packs = made.map(({ of, farm, today }) => {
    const { files } = auditFiles(farm, period, {
      business: of.business,
      today,
      priors: pooledOn(of, today).priors,
    });
    const html = files['audit.html']!;
    const file = join(folder, `${farm.slug}.html`);
    writeFileSync(file, html);
    return { name: farm.slug, html, address: pathToFileURL(file).href };
  });
}, 120_000);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

test('html-validate finds nothing in any pack', async () => {
  for (const { name, html } of packs) {
    expect(await htmlFindings(html), name).toEqual([]);
  }
}, 60_000);

test('a pack fits a phone of 320 px, asks for nothing, and axe finds nothing by day and by night', async () => {
  for (const { name, address } of packs) {
    const context = await browser.newContext({ viewport: { width: 320, height: 900 } });
    const asked: string[] = [];
    context.on('request', (request) => asked.push(request.url()));
    const page = await context.newPage();
    await page.goto(address);
    expect(await page.evaluate(inPage.width), name).toBe(320);
    const said: unknown[] = [];
    // All packs are of one template: the fullest is looked at by axe, small by day and wide by night.
    if (name === 'every-field') {
      await page.evaluate(axe);
      for (const [colorScheme, width] of [
        ['light', 320],
        ['dark', 1280],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 900 });
        said.push(...(await page.evaluate<string[]>(axeOver(allRules))));
      }
    }
    expect(said, name).toEqual([]);
    expect(asked, name).toEqual([address]);
    await context.close();
  }
}, 200_000);

test('printed, a pack lies on the long side of the farm’s paper, nothing runs off it, and heads are repeated', async () => {
  const context = await browser.newContext({ viewport: { width: 1024, height: 700 } });
  for (const { name, address } of packs) {
    const page = await context.newPage();
    await page.goto(address);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    const box = /\/MediaBox ?\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf.toString('latin1'));
    const wide = name === 'quasselbrook' ? [792, 612] : [842, 595];
    expect([Math.round(Number(box?.[1])), Math.round(Number(box?.[2]))], name).toEqual(wide);
    expect(countSheets(pdf)).toBeGreaterThan(1);
    // The width a sheet has between its margins of 14 mm.
    const column = Math.floor((wide[0]! / 72) * 96 - (28 / 25.4) * 96);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: column, height: 700 });
    expect(await page.evaluate(inPage.outOfColumn(column)), name).toEqual([]);
    expect(await page.evaluate(`getComputedStyle(document.querySelector('thead')).display`)).toBe(
      'table-header-group',
    );
    await page.close();
  }
  await context.close();
}, 120_000);

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import * as fc from 'fast-check';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { composeBlankSheet, composeSheet } from '../../src/form/sheet/compose-sheet.js';
import { renderSheet, sheetLayout, type SheetPage } from '../../src/form/sheet/sheet-page.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { Animal } from '../../src/record/animal.js';
import type { FarmRecord, Practice } from '../../src/record/practice.js';
import { farmTasks, type Paper, signs } from '../../src/record/words.js';
import { untold } from '../../src/reference/words.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { farmWith } from '../growth/invented-practice.js';
import { anyTroubledPractice } from '../laws/any-trouble.js';
import { quernholt } from '../schedule/a-case.js';
import { openBrowser } from './find-browser.js';
import { allRules, axe, axeOver } from './axe.js';
import { inPage } from './in-page.js';
import { htmlFindings } from '../book/html-findings.js';

const today = '2026-06-16';
const folder = mkdtempSync(join(tmpdir(), 'growdown-sheets-'));
let browser: Browser;
let sheets: { name: string; address: string; page: SheetPage; html: string }[];

/** A cow with all that takes room: two lesions, marks, blocks and wraps, work stopped, near calving, long words. */
function fullest(paper: Paper): FarmRecord {
  const long =
    'two people and the belly strap behind her, she goes down on the left side when the chain is short and ';
  const gap = { state: 'open' as const, top: 12.5, wall: 43, width: 22, depth: 6, 'top-found': 'higher' as const, tool: 'calliper' as const, signs: [...signs], note: long }; // prettier-ignore
  const fitted = { event: 'fitted' as const };
  const animal: Animal = {
    casefile: 1,
    animal: 'Bellfurrow 20412',
    tag: 'UK 000123 402041',
    electronic: '999000000402041',
    breed: 'Holstein crossed with Norwegian Red and Montbeliarde',
    calvings: ['2025-06-20'],
    'due-to-calve': '2026-06-20',
    handling: long.repeat(6),
    lesions: {
      a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' },
      b: { code: 'HFV', foot: 'RF', claw: 'inner', site: 'dorsal wall', line: 'dorsal' },
    },
    marks: {
      m1: { foot: 'LH', claw: 'inner', line: 'dorsal' },
      m2: { foot: 'RF', claw: 'outer', line: 'dorsal' },
    },
    visits: [
      {
        date: '2026-05-05',
        by: 'Orla Venn',
        kind: 'first',
        gait: 3,
        feet: {
          LF: { lifted: true, signs: ['blisters', 'heat'] },
          RF: { lifted: true, signs: ['swollen above foot'] },
        },
        found: { a: gap, b: gap, m1: { distance: 12, tool: 'tape' }, m2: { distance: 14, tool: 'tape' } },
        blocks: [
          { ...fitted, foot: 'LH', claw: 'inner', material: 'plastic' },
          { ...fitted, foot: 'RF', claw: 'outer' },
        ],
        wraps: [
          { ...fitted, foot: 'LH' },
          { ...fitted, foot: 'RF' },
        ],
        'pain-relief': 'given',
        vet: { asked: '2026-05-05', why: long, about: ['LH', 'pus'] },
        'ask-farm': farmTasks.map((what) => ({ what, by: '2026-05-12' })),
      },
    ],
  };
  return farmWith('quernholt', { full: animal, again: animal }, { ...quernholt, farm: 'The Quernholt and Upper Bellfurrow Estate Dairy Company', paper }); // prettier-ignore
}

/** All cases of the demo, the closed ones too, the fullest, some drawn at random, and the blank sheet, on either paper. */
function makeSheets(): typeof sheets {
  const { practice } = readPractice(nodeCaseFiles, 'cases', { today });
  const drawn = fc.sample(anyTroubledPractice, { seed: 20260616, numRuns: 12 });
  const pages = (['A4', 'Letter'] as const).flatMap((paper) => {
    const of = ({ farms, business }: Practice): SheetPage[] => {
      const { priors } = pooledOn({ farms }, today);
      return farms.map((farm) =>
        composeSheet({
          farm: { ...farm, farm: { ...farm.farm, paper } },
          language: farm.farm.language ?? 'en-GB',
          day: today,
          today,
          work: workOutFarm(farm, { business, today, priors }),
        }),
      );
    };
    const all = [practice, { ...practice, farms: [fullest(paper)] }, ...drawn].flatMap(of);
    // One document for all farms: a browser prints it at once.
    const [first] = all;
    const leaves = all.flatMap((page) => page.leaves).map((leaf, at) => ({ ...leaf, id: `leaf-${at}` }));
    return [
      { name: `all ${paper}`, page: { ...first!, leaves } },
      { name: `few ${paper}`, page: { ...first!, leaves: first!.leaves.slice(0, 2) } },
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
    expect(page.leaves.filter(({ sides }) => sides.length % 2 === 1)).toEqual([]);
    const sides = page.leaves.flatMap((leaf) => leaf.sides);
    expect(printed.numPages, name).toBe(sides.length);
    for (const [at, side] of sides.entries()) {
      const { items } = await (await printed.getPage(at + 1)).getTextContent();
      const text = items.map((item) => ('str' in item ? item.str : '')).join('');
      expect(text.replaceAll(' ', '').startsWith(untold(side.heading).replaceAll(' ', '')), `${name}, page ${at + 1}`).toBe(true); // prettier-ignore
    }
  }
}, 120_000);

test('nothing runs out of its side or its row, the lines are 9.5 mm apart, and boxes have the size of a gloved hand', async () => {
  for (const { name, address, page } of sheets) {
    const { width } = sheetLayout.paper[page.paper];
    const found = await withSheet(address, async (open) => {
      await open.setViewportSize({ width: Math.floor((width * 96) / 25.4), height: 1000 });
      await open.emulateMedia({ media: 'print' });
      return await open.evaluate<Measured>(measured);
    });
    expect(found.out, name).toEqual([]);
    expect(found.smallestPt, name).toBeGreaterThanOrEqual(7.45);
    expect(found.digits, name).toEqual(['8 × 11']);
    expect(found.walk, name).toEqual(['9 × 9']);
    expect(found.lines, name).toContain('9.5mm');
  }
}, 120_000);

interface Measured {
  readonly out: readonly string[];
  readonly smallestPt: number;
  readonly digits: readonly string[];
  readonly walk: readonly string[];
  readonly lines: string;
}

/** In print media: what is outside of its side or row, and how large things are, mm and pt. */
const measured = `(() => {
  const mm = (px) => Math.round((px * 254) / 96) / 10;
  const name = (one) => one.closest('.leaf').id + ', ' + one.closest('.side').querySelector('h2').textContent + ': ' + one.textContent.trim().slice(0, 60);
  const sides = [...document.querySelectorAll('.side')];
  const below = (side) => mm(side.querySelector('.end').getBoundingClientRect().bottom - side.getBoundingClientRect().bottom);
  const out = sides.filter((side) => below(side) > 0.3 || side.scrollWidth > side.clientWidth + 1).map((side) => name(side.querySelector('h2')) + ' ' + below(side))
    .concat([...document.querySelectorAll('.row')].filter((row) => row.scrollWidth > row.clientWidth + 1).map(name));
  const sizes = [...document.querySelectorAll('main *')].filter((one) => one.checkVisibility() && !one.matches('title, desc') && [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim()))
    .map((one) => parseFloat(getComputedStyle(one).fontSize) * (one.getCTM ? one.getCTM().a : 1) * 0.75);
  const size = (style) => Math.round(mm(parseFloat(style.width))) + ' × ' + Math.round(mm(parseFloat(style.height)));
  const all = (where, pseudo) => [...new Set([...document.querySelectorAll(where)].map((one) => size(getComputedStyle(one, pseudo))))];
  const ruled = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules]).find((rule) => rule.selectorText === '.ruled');
  return { out, smallestPt: Math.min(...sizes), digits: all('.lesion .digit'), walk: all('.walk .box', '::before'), lines: ruled.style.background };
})()`;

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

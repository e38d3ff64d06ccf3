import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import * as fc from 'fast-check';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import type { BookPage } from '../../src/book/book-page.js';
import { composeBook } from '../../src/book/compose-book.js';
import { frontMm } from '../../src/book/fit-sheet.js';
import { roomOn } from '../../src/book/fit.js';
import { renderBook } from '../../src/book/render-book.js';
import { papers, type Paper } from '../../src/record/words.js';
import { anyBusyFarm, practiceWith, today } from '../book/busy-cows.js';
import { readPdf } from '../pdf/read-pdf.js';
import { booksOnDisk } from './books-on-disk.js';
import { openBrowser } from './find-browser.js';

let browser: Browser;
const folder = join(inject('folder'), 'one-sheet');
beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  browser = await openBrowser();
}, 60_000);
afterAll(() => browser?.close());

/** A book as paper has it. */
interface OnPaper {
  readonly sides: number;
  /** Of each cow the sides that name her sheet in their margin, counted from one. */
  readonly sidesOf: ReadonlyMap<string, readonly number[]>;
  /** Heights the browser gives the parts of a side, mm. */
  readonly heights: ReadonlyMap<string, { readonly front: number; readonly back: number }>;
  readonly pageOne: number;
  readonly farmBack: number;
}

const mmOf = `(element) => element ? element.getBoundingClientRect().height * 25.4 / 96 : 0`;

async function onPaper(html: string, paper: Paper, cows: BookPage['cows']): Promise<OnPaper> {
  const file = join(folder, 'book.html');
  writeFileSync(file, html);
  const { widthMm } = roomOn(paper);
  const page = await browser.newPage({
    viewport: { width: Math.round((widthMm * 96) / 25.4), height: 1000 },
  });
  try {
    await page.goto(pathToFileURL(file).href);
    const { sheets } = await readPdf(await page.pdf({ preferCSSPageSize: true }));
    await page.emulateMedia({ media: 'print' });
    const measured = await page.evaluate<{ cows: [string, number, number][]; one: number; farm: number }>(`({
      one: (${mmOf})(document.querySelector('.page-one')),
      farm: (${mmOf})(document.querySelector('.farm-back')),
      cows: [...document.querySelectorAll('article.cow')].map((cow) =>
        [cow.id, (${mmOf})(cow.querySelector('.front')), (${mmOf})(cow.querySelector('.cow-back'))]),
    })`);
    const closeUp = (text: string) => text.replaceAll(/\s/g, '');
    return {
      sides: sheets.length,
      sidesOf: new Map(
        cows.map(({ id, running }) => [
          id,
          sheets.flatMap(({ untagged }, at) =>
            closeUp(untagged).includes(closeUp(running)) ? [at + 1] : [],
          ),
        ]),
      ),
      heights: new Map(measured.cows.map(([id, front, back]) => [id, { front, back }])),
      pageOne: measured.one,
      farmBack: measured.farm,
    };
  } finally {
    await page.close();
  }
}

/** What of a book does not keep to two sides for the farm and two for each cow, each finding with its numbers. */
async function findings(name: string, book: BookPage, html?: string): Promise<string[]> {
  const cows = book.cows;
  const room = roomOn(book.paper);
  const paper = await onPaper(html ?? (await renderBook(book)), book.paper, cows);
  const say = (mm: number) => mm.toFixed(1);
  const said: string[] = [];
  const expected = 2 * (1 + cows.length);
  if (paper.sides !== expected) said.push(`${paper.sides} sides and not ${expected}`);
  if (paper.pageOne > room.heightMm) said.push(`page one is ${say(paper.pageOne)} mm of ${room.heightMm}`);
  if (paper.farmBack > room.heightMm) said.push(`its back is ${say(paper.farmBack)} mm of ${room.heightMm}`);
  for (const cow of cows) {
    const { front, back } = paper.heights.get(cow.id)!;
    const sum = frontMm(cow, room);
    const who = `${cow.id} (${cow.back.rows.length} rows, ${cow.figures.length} figures, ${cow.banners.length} banners)`;
    const sides = paper.sidesOf.get(cow.id)!;
    if (sides.length !== 2 || sides[0]! % 2 === 0) said.push(`${who}: on sides ${sides.join(' ')}`);
    if (front > room.heightMm)
      said.push(`${who}: front is ${say(front)} mm of ${room.heightMm}, summed ${say(sum)}`);
    if (back > room.heightMm) said.push(`${who}: back is ${say(back)} mm of ${room.heightMm}`);
    // With its pictures in it a front was fitted by another sum.
    if (html === undefined && front - sum > slackMm)
      said.push(`${who}: front is ${say(front)} mm and was summed to ${say(sum)}`);
    if (front < room.heightMm / 3) said.push(`${who}: front is only ${say(front)} mm`);
  }
  return said.map((line) => `${name}, ${book.paper}: ${line}`);
}

/** As the fitter has it. */
const slackMm = 4;

const most = { quernholt: 32, harrowmere: 14, quasselbrook: 16 };

test.each(papers)(
  'the demo keeps to two sides for the farm and two for each cow, every cow on a front: %s',
  async (paper) => {
    for (const { name, practice, farm, html, today: day } of (await booksOnDisk(paper)).slice(0, 3)) {
      const book = composeBook(practice, farm, day);
      expect(await findings(`${name} without pictures`, book)).toEqual([]);
      expect(await findings(name, book, html)).toEqual([]);
      expect(2 * (1 + book.cows.length), name).toBeLessThanOrEqual(most[name as keyof typeof most]); // prettier-ignore
    }
  },
  240_000,
);

test.each(papers)(
  'books of busy cows keep to two sides for the farm and two for each cow, whatever is on record: %s',
  async (paper) => {
    const farms = fc.sample(anyBusyFarm(paper, 14), { seed: 20260616, numRuns: 4 });
    const said: string[] = [];
    for (const [at, farm] of farms.entries())
      said.push(...(await findings(`farm ${at}`, composeBook(practiceWith(farm), farm, today))));
    expect(said).toEqual([]);
  },
  300_000,
);

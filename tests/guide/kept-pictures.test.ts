import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import PostalMime from 'postal-mime';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser } from '../browser/find-browser.js';
import { folderWith } from '../cli/run-in-folder.js';

const pictures = new URL('../../shared/pictures/', import.meta.url);
const list = new URL('pictures.json', pictures);
const update = process.env['UPDATE_EXPECTED'];

/** One piece of a page: from the top of the first place to the end of the last, or so many pixels of it. */
interface Piece {
  readonly page: string;
  readonly places: readonly [string, ...string[]];
  readonly width: number;
  readonly height?: number;
  /** A link or button of a page to go on by before it is looked at. */
  readonly by?: string;
}

const wide = 860;
const farmSide: Piece = { page: 'quernholt.html', places: ['.page-one'], width: wide };
const cowFront: Piece = { page: 'quernholt.html', places: ['#animal-2041 .front'], width: wide };
const phone = { width: 390, height: 780 };

/** Every picture kept, with the pieces it shows beside each other. All are of the demo as on its day. */
const kept: Readonly<Record<string, readonly Piece[]>> = {
  'book.webp': [farmSide, cowFront],
  'guide/farm-side.webp': [farmSide],
  'guide/cow-front.webp': [cowFront],
  'guide/cow-back.webp': [{ page: 'quernholt.html', places: ['#animal-2041 .cow-back'], width: wide }],
  'guide/cow-phone.webp': [{ page: 'quernholt.html', places: ['#animal-2041 .front'], ...phone }],
  'guide/sheet-front.webp': [{ page: 'quernholt-sheet.html', places: ['#animal-2086 .side:nth-of-type(1)'], width: wide }],
  'guide/sheet-back.webp': [{ page: 'quernholt-sheet.html', places: ['#animal-2086 .side:nth-of-type(2)'], width: wide }],
  'guide/form-phone.webp': [{ page: 'quernholt-form.html', places: ['main'], by: '2086', ...phone }],
  'guide/round.webp': [{ page: 'round.html', places: ['.trip'], width: wide, height: 700 }],
  'guide/overview.webp': [{ page: 'overview.html', places: ['.one-head', '#open'], width: wide }],
  'guide/letter.webp': [{ page: 'letter.html', places: ['body'], ...phone }],
  'guide/handover.webp': [{ page: 'quernholt/2155-handover.html', places: ['main'], width: wide }],
  'guide/audit.webp': [{ page: 'quernholt-2026/audit.html', places: ['#top', '#gaps'], width: wide, height: 900 }],
}; // prettier-ignore

let browser: Browser;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'growdown-pictures-'));
  cpSync(fileURLToPath(new URL('../../cases', import.meta.url)), join(folder, 'cases'), { recursive: true });
  const { growdown } = folderWith({}, { folder }, () => undefined);
  for (const line of [
    'books --farm quernholt',
    'sheet --farm quernholt',
    'form quernholt',
    'round',
    'overview',
    'handover quernholt/2155',
    'audit --farm quernholt --period 2026',
    'post quernholt',
  ])
    // prettier-ignore
    await growdown(...line.split(' '), '--cases', join(folder, 'cases'), '--out', folder, '--today', '2026-06-16');
  const { html } = await PostalMime.parse(readFileSync(join(folder, 'quernholt.eml')));
  writeFileSync(join(folder, 'letter.html'), html!);
  browser = await openBrowser();
}, 200_000);
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function open({ page: name, by, width, height = 900 }: Piece): Promise<Page> {
  const page = await browser.newPage({
    viewport: { width, height },
    deviceScaleFactor: 1.5,
    locale: 'en-GB',
  });
  await page.clock.setFixedTime(new Date('2026-06-16T12:00:00'));
  await page.goto(pathToFileURL(join(folder, name)).href);
  if (by === undefined) return page;
  await page
    .getByText(new RegExp(`^${by}`))
    .first()
    .click();
  // A page that draws itself is looked at when it has come to rest.
  const said = (): Promise<string> => page.evaluate('document.body.innerText');
  for (let last = ''; last !== (await said());) {
    last = await said();
    await page.waitForTimeout(200);
  }
  return page;
}

/** What a piece says and draws: its words and its lines. A change of colour or margin alone makes no picture old. */
const said = `(places) => places.flatMap((place) => {
  const root = document.querySelector(place);
  const lines = [...root.querySelectorAll('path, polyline, polygon')].map((one) => one.getAttribute('d') ?? one.getAttribute('points'));
  return [root.textContent.replace(/\\s+/g, ' '), ...lines];
}).join('\\n')`;

async function shot(page: Page, { places, width, height }: Piece): Promise<Buffer> {
  const boxes = await Promise.all(
    [places[0], places.at(-1)!].map((place) => page.locator(place).first().boundingBox()),
  );
  const top = Math.max(0, boxes[0]!.y - 4);
  const tall = boxes[1]!.y + boxes[1]!.height - top;
  return page.screenshot({
    fullPage: true,
    clip: { x: 0, y: top, width, height: Math.min(height ?? tall, tall) },
  });
}

/** Pieces beside each other, as tall as the lowest of them. */
async function beside(shots: readonly Buffer[]) {
  if (shots.length === 1) return sharp(shots[0]);
  const sizes = await Promise.all(shots.map((one) => sharp(one).metadata()));
  const height = Math.min(...sizes.map((one) => one.height));
  const width = sizes.reduce((sum, one) => sum + one.width + 30, 30);
  let left = 0;
  const layers = await Promise.all(
    shots.map(async (one, at) => {
      const input = await sharp(one)
        .extract({ left: 0, top: 0, width: sizes[at]!.width, height })
        .png()
        .toBuffer();
      const layer = { input, top: 30, left: left + 30 };
      left = layer.left + sizes[at]!.width;
      return layer;
    }),
  );
  const ground = sharp({ create: { width, height: height + 60, channels: 3, background: '#d9d6cf' } });
  return sharp(await ground.composite(layers).png().toBuffer());
}

type Listed = Record<string, { width: number; height: number; shows: string }>;

test('no kept picture is old: each shows what its page says now (UPDATE_EXPECTED=1 makes the old ones anew)', async () => {
  const listed = JSON.parse(readFileSync(list, 'utf8')) as Listed;
  const old: string[] = [];
  for (const [name, pieces] of Object.entries(kept)) {
    const pages: Page[] = [];
    const words: string[] = [];
    for (const piece of pieces) {
      const page = await open(piece);
      pages.push(page);
      words.push(await page.evaluate<string>(`(${said})(${JSON.stringify(piece.places)})`));
    }
    const shows = createHash('sha256').update(words.join('\n')).digest('hex').slice(0, 16);
    expect(words.join('').length, name).toBeGreaterThan(200);
    if (listed[name]?.shows !== shows) {
      old.push(name);
      if (update) {
        const shots: Buffer[] = [];
        for (const [at, page] of pages.entries()) shots.push(await shot(page, pieces[at]!));
        const made = await (await beside(shots)).webp({ quality: 72 }).toBuffer({ resolveWithObject: true });
        mkdirSync(new URL('guide/', pictures), { recursive: true });
        writeFileSync(new URL(name, pictures), made.data);
        const [width, height] = [made.info.width, made.info.height].map((length) => Math.round(length / 1.5));
        listed[name] = { width: width!, height: height!, shows };
      }
    }
    await Promise.all(pages.map((page) => page.close()));
  }
  if (update) writeFileSync(list, `${JSON.stringify(listed, null, 2)}\n`);
  else expect(old).toEqual([]);
  expect(Object.keys(listed).sort()).toEqual(Object.keys(kept).sort());
}, 200_000);

import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { pageCss } from '../../src/book/layout-css.js';
import { textWidth } from '../../src/figure/wrap-text.js';
import { renderHandover } from '../../src/handover/render-handover.js';
import { papers } from '../../src/record/words.js';
import { folderWith } from '../cli/run-in-folder.js';
import { farmOf, handoverOf, longestFarm, longestRecord } from '../handover/a-handover.js';
import { openBrowser } from './find-browser.js';
import { fontList } from './packed-browser.js';

const folder = join(inject('folder'), 'same-sides');
/** Liberation Sans, as wide as the usual office sans; nothing at all. */
const officeFonts = join(dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')), 'standard_fonts'); // prettier-ignore
const browsers: { fonts: string; browser: Browser }[] = [];

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  for (const [fonts, of] of [
    ['office fonts', officeFonts],
    ['no font', undefined],
  ] as const) {
    const list = join(folder, `${fonts}.xml`);
    writeFileSync(list, fontList(of, join(folder, `${fonts} cache`)));
    browsers.push({ fonts, browser: await openBrowser(list) });
  }
}, 60_000);
afterAll(async () => {
  for (const { browser } of browsers) await browser.close();
});

async function sidesIn(browser: Browser, file: string): Promise<number> {
  const page = await browser.newPage();
  try {
    await page.goto(pathToFileURL(file).href);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    return (await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise).numPages;
  } finally {
    await page.close();
  }
}

/** Whatever is printed of the demo's farms, on one paper: paths of HTML files. */
async function printedOfDemo(paper: string): Promise<string[]> {
  const { folder: made, growdown } = folderWith({});
  cpSync(fileURLToPath(new URL('../../cases', import.meta.url)), join(made, 'cases'), { recursive: true });
  for (const farm of ['quernholt', 'harrowmere', 'quasselbrook']) {
    const file = join(made, 'cases', farm, 'farm.md');
    const text = readFileSync(file, 'utf8').replace(/^paper: .*\n/m, '');
    writeFileSync(file, text.replace('---\n', `---\npaper: ${paper}\n`));
  }
  const commands = ['books', 'sheet --all', 'handover quernholt/2155', 'handover quernholt/2244', 'round', 'overview', 'audit']; // prettier-ignore
  for (const command of commands) {
    const run = await growdown(...command.split(' '));
    expect(run.code, `${command}: ${run.err}`).toBe(0);
  }
  const files = readdirSync(made, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.html'),
  );
  expect(files.length).toBe(17);
  return files.map((name) => join(made, name));
}

test.each(papers)(
  'with office fonts and with no font at all, all that is printed of the demo has the same sides: %s',
  async (paper) => {
    for (const file of await printedOfDemo(paper)) {
      const [office, none] = await Promise.all(browsers.map(({ browser }) => sidesIn(browser, file)));
      expect(none, file).toBe(office);
      if (file.includes('handover')) expect(none, file).toBe(1);
    }
  },
  120_000,
);

test('a handover keeps to its sheet where names are written in letters the face lacks', async () => {
  // Long texts only: words of closed lists stay.
  const strange = (_: string, value: unknown) =>
    typeof value === 'string' && value.length > 40
      ? value.replaceAll('W', '牛').replaceAll('word', 'корова')
      : value;
  const record = JSON.parse(JSON.stringify(longestRecord()), strange) as ReturnType<typeof longestRecord>;
  expect(JSON.stringify(record)).toMatch(/牛.*корова/);
  for (const paper of papers) {
    const file = join(folder, 'strange.html');
    writeFileSync(file, renderHandover(handoverOf(farmOf(record, { ...longestFarm, paper }))));
    for (const { browser, fonts } of browsers)
      expect(await sidesIn(browser, file), `${fonts} ${paper}`).toBe(1);
  }
}, 60_000);

test('a browser draws a text as wide as the sum says', async () => {
  const words = readFileSync(new URL('../../shared/words/en-GB.json', import.meta.url), 'utf8');
  const texts = [...words.matchAll(/: "([^"\\]{12,80})"/g)].map(([, text]) => text!).slice(0, 400);
  const page = await browsers[1]!.browser.newPage();
  const lines = (kind: string) =>
    texts.map((text) => `<p class="${kind}">${text.replaceAll('<', '&lt;')}</p>`);
  // As on paper: on a screen some systems round each letter to whole pixels.
  const file = join(folder, 'lines.html');
  writeFileSync(
    file,
    `<!doctype html><meta charset="utf-8"><style>${pageCss()} p{font:100px var(--face);text-rendering:geometricPrecision;white-space:pre;width:fit-content}p.bold{font-weight:700}</style>${[...lines('regular'), ...lines('bold')].join('')}`,
  );
  await page.goto(pathToFileURL(file).href);
  for (const weight of ['regular', 'bold'] as const) {
    const drawn = await page.evaluate<number[]>(
      `[...document.querySelectorAll('p.${weight}')].map((p) => p.getBoundingClientRect().width)`,
    );
    for (const [index, text] of texts.entries()) {
      const sum = textWidth(text, 100, weight);
      // The widths are thousandths of the type size, rounded; a browser lays out by sixty-fourths of a pixel.
      expect(Math.abs(drawn[index]! / sum - 1), `${weight}: ${text}`).toBeLessThan(0.001);
    }
  }
  await page.close();
});

/**
 * Draws every picture the repository carries anew: the demo's, from `pictures.json`, and those on measuring.
 *
 * Run by hand after a change: `node tests/pictures/draw-pictures.mjs` (Chromium: CHROMIUM_PATH, else /usr/bin/chromium).
 * Drawn from anatomy, to scale in millimetres; never traced, never a photograph.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { drawClawFromOutside } from './claw-from-outside.mjs';
import { drawFootFromBelow } from './foot-from-below.mjs';
import { drawHeelsFromBehind } from './heels-from-behind.mjs';
import { drawHowToMeasure } from './how-to-measure.mjs';
import { ink, label, sheet } from './ink.mjs';
import { drawMoreMeasures } from './more-measures.mjs';
import { drawToesFromFront } from './toes-from-front.mjs';

const top = new URL('../../', import.meta.url);
const [width, height] = [900, 675];
const views = {
  outside: drawClawFromOutside,
  below: drawFootFromBelow,
  behind: drawHeelsFromBehind,
  front: drawToesFromFront,
};

const browser = await chromium.launch({
  executablePath: process.env['CHROMIUM_PATH'] ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'], // prettier-ignore
});
const page = await browser.newPage();

async function rasterise(svg, size, options) {
  await page.setViewportSize(size);
  await page.setContent(`<!doctype html><style>body{margin:0}svg{display:block}</style>${svg}`);
  return page.screenshot(options);
}

for (const { file, view, words, draw } of JSON.parse(
  readFileSync(new URL('pictures.json', import.meta.url), 'utf8'),
)) {
  const caption =
    label(28, height - 26, words, { size: 22 }) +
    label(width - 28, height - 26, 'a drawing', { size: 20, anchor: 'end', fill: ink.quiet });
  const svg = sheet(width, height, words, views[view]({ ...draw, width, height }) + caption);
  const target = fileURLToPath(new URL(file, top));
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, await rasterise(svg, { width, height }, { type: 'jpeg', quality: 78 }));
}

const pictures = new URL('shared/pictures/', top);
writeFileSync(new URL('how-to-measure.svg', pictures), drawHowToMeasure().svg);
writeFileSync(new URL('more-measures.svg', pictures), drawMoreMeasures().svg);

await browser.close();

// Makes the README's picture of a book: its first page beside one animal's page, from the demo as built.
//   npm start && node tests/pictures/picture-of-a-book.mjs
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = new URL('../../', import.meta.url);
const book = pathToFileURL(fileURLToPath(new URL('books/quernholt.html', root))).href;
const [width, height] = [860, 1180];
const browser = await chromium.launch({
  executablePath:
    process.env.CHROMIUM_PATH ?? ['/usr/bin/chromium', '/usr/bin/google-chrome'].find(existsSync),
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});
const page = await browser.newPage({ viewport: { width, height } });
await page.goto(book);
const shots = [];
for (const place of ['#top', '#animal-2041']) {
  const top = await page.locator(place).evaluate((element) => element.getBoundingClientRect().top + scrollY);
  const clip = { x: 0, y: Math.max(0, top - 12), width, height };
  shots.push((await page.screenshot({ fullPage: true, clip })).toString('base64'));
}
const pair = shots.map((shot) => `<img src="data:image/png;base64,${shot}" width="${width / 1.5}">`).join('');
// A sheet of its own: the book's policy would refuse this style.
const size = { width: Math.round((width / 1.5) * 2 + 60), height: Math.round(height / 1.5 + 40) };
const sheet = await browser.newPage({ viewport: size });
await sheet.setContent(
  `<style>body{margin:20px;display:flex;gap:20px;background:#d9d6cf}img{box-shadow:0 1px 6px #0004}</style>${pair}`,
);
const out = fileURLToPath(new URL('shared/pictures/book.png', root));
await sheet.screenshot({ path: out });
await browser.close();
console.log(`${out}: ${Math.round(readFileSync(out).length / 1024)} kB`);

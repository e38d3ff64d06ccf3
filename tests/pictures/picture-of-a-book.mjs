// Makes the README's pictures of a book from the demo as built: its first page beside the wall of one animal on true time; then the same book on a
// phone, in the dark, as a strip of photographs, on paper and on paper in grey.
//   npm start && node tests/pictures/picture-of-a-book.mjs
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const root = new URL('../../', import.meta.url);
const book = pathToFileURL(fileURLToPath(new URL('books/quernholt.html', root))).href;
const browser = await chromium.launch({
  executablePath:
    process.env.CHROMIUM_PATH ?? ['/usr/bin/chromium', '/usr/bin/google-chrome'].find(existsSync),
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
});

/** One piece of the book, `width` by `height` CSS pixels from the top of a place, or a place whole where no height is given. */
async function shot(place, { width, height, ...how }) {
  const page = await browser.newPage({ viewport: { width, height: height ?? 900 }, deviceScaleFactor: 1.5 });
  await page.emulateMedia(how);
  await page.goto(book);
  const box = await page
    .locator(place)
    .first()
    .evaluate((element) => {
      const { top, height: tall } = element.getBoundingClientRect();
      return { top: top + scrollY, tall };
    });
  const clip = { x: 0, y: Math.max(0, box.top - 12), width, height: height ?? Math.ceil(box.tall) + 24 };
  const png = await page.screenshot({ fullPage: true, clip });
  await page.close();
  return png.toString('base64');
}

/** Pieces beside each other on a ground of their own: the book's policy would refuse this style. */
async function sheet(name, pieces, height) {
  const all = pieces.reduce((sum, { width }) => sum + width + 20, 20);
  const page = await browser.newPage({ viewport: { width: all, height: height + 40 } });
  const images = pieces
    .map(
      ({ png, width, grey }) =>
        `<img src="data:image/png;base64,${png}" width="${width}"${grey ? ' class="grey"' : ''}>`,
    )
    .join('');
  await page.setContent(
    `<style>html{background:#d9d6cf}body{margin:20px;display:flex;gap:20px;align-items:start;background:#d9d6cf}img{box-shadow:0 1px 6px #0004;max-height:${height}px;object-fit:cover;object-position:top}.grey{filter:grayscale(1)}</style>${images}`,
  );
  const out = fileURLToPath(new URL(`shared/pictures/${name}`, root));
  await page.screenshot({ path: out });
  await page.close();
  console.log(`${out}: ${Math.round(readFileSync(out).length / 1024)} kB`);
}

const wide = { width: 860, height: 1180 };
const phone = { width: 360, height: 780 };
await sheet(
  'book.png',
  [
    { png: await shot('#next', wide), width: 573 },
    { png: await shot('#animal-2041 .front', wide), width: 573 },
  ],
  786,
);
const paper = { width: 690, height: 976, media: 'print' };
await sheet(
  'book-elsewhere.png',
  [
    { png: await shot('#animal-2041', phone), width: 260 },
    { png: await shot('#animal-2041', { ...phone, colorScheme: 'dark' }), width: 260 },
    { png: await shot('#animal-2041 .cow-figure', { ...phone }), width: 260 },
    { png: await shot('#next', paper), width: 398 },
    { png: await shot('#animal-2041 .cow-figure', paper), width: 398, grey: true },
  ],
  563,
);
await sheet(
  'book-photos.png',
  [{ png: await shot('#animal-2041 .cow-pictures', { width: 860, height: 510 }), width: 860 }],
  510,
);
await browser.close();

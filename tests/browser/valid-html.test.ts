import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { renderGuide } from '../../src/guide/compose-guide.js';
import { annexesOnDisk, booksOnDisk, type BookOnDisk } from './books-on-disk.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { staffPages } from '../../src/post/staff-page.js';
import { staffLanguages } from '../../src/record/words.js';
import { htmlFindings } from '../book/html-findings.js';

let books: Pick<BookOnDisk, 'name' | 'file' | 'html'>[];
beforeAll(async () => {
  books = [...(await booksOnDisk()), ...(await annexesOnDisk()), ...(await listsOnDisk())];
  const guide = { name: 'guide', html: renderGuide('A4'), file: join(dirname(books[0]!.file), 'guide.html') };
  writeFileSync(guide.file, guide.html);
  books.push(guide);
}, 120_000);

/** The lists for the staff of the demo's busiest farm, and of the farm with every field. */
async function listsOnDisk(): Promise<typeof books> {
  const farms = (await booksOnDisk()).filter(({ name }) => name === 'quernholt' || name === 'every-field');
  return farms.flatMap(({ practice, farm: asWritten, today, file: book }) => {
    const farm = { ...asWritten, farm: { ...asWritten.farm, 'staff-languages': [...staffLanguages] } };
    return staffPages(practice, farm, today, pooledOn(practice, today)).map(({ name, language, html }) => {
      const file = book.replace('.html', `-staff-${language}.html`);
      writeFileSync(file, html);
      return { name, file, html };
    });
  });
}

test('html-validate finds nothing in any book, annex or list, nor in the guide', async () => {
  for (const { name, html } of books) {
    expect(await htmlFindings(html), name).toEqual([]);
  }
}, 60_000);

/** What the Nu HTML checker says of files, errors and warnings alike. */
function nuSays(files: readonly string[]): string[] {
  const { stderr } = spawnSync('java', [...short, '-jar', jar, '--format', 'json', ...files], {
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  const { messages } = JSON.parse(stderr) as {
    messages: { type: string; message: string; url?: string; lastLine?: number }[];
  };
  return messages.map(({ type, message, url, lastLine }) => `${url} ${lastLine} ${type}: ${message}`);
}

/** A run of seconds gains nothing from the long kind of compiling; the checker needs a deep stack. */
const short = ['-Xss2m', '-XX:TieredStopAtLevel=1', '-XX:+UseSerialGC'];
const jar = String(createRequire(import.meta.url)('vnu-jar'));
const java = spawnSync('java', ['-version']).status === 0;

/** What it says and what is not so, each with the reason. Nothing else is left out. */
const notSo = [
  // `paint-order` is in SVG 2 and in CSS Fill and Stroke, and every browser draws by it: its list of properties is older.
  / error: CSS: “paint-order”: Property “paint-order” doesn't exist\.$/,
  // `img-src data:` lets pictures inside the file through: every browser shows them (book-in-browser.test.ts holds it).
  / info: Resource violates Content Security Policy \(meta tag\): image “data:image\/[^”]*” blocked by “img-src” directive\.$/,
];

test('the Nu HTML checker finds nothing in any book, annex or list, nor in the guide', (context) => {
  context.skip(!java, 'it is a Java program, and there is no Java on this machine');
  const said = nuSays(books.map(({ file }) => file));
  expect(said.filter((line) => !notSo.some((one) => one.test(line)))).toEqual([]);
  const [first] = books;
  const broken = join(dirname(first!.file), 'broken.html');
  writeFileSync(broken, first!.html.replace('<h1>', '<h1 align="left"><p>'));
  expect(nuSays([broken]).length).toBeGreaterThan(1);
}, 120_000);

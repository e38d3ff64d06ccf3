import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gps, parse } from 'exifr';
import { HtmlValidate } from 'html-validate';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { farmFile, folderWith } from '../cli/run-in-folder.js';
import { fromAPhone, roughPicture, tellTales } from './made-up-pictures.js';

/** An animal with one picture a visit, four weeks apart, named as written. */
function animalShown(...named: string[]): string {
  const visits = named.map((file, at) => {
    const date = `2025-${String(at + 1).padStart(2, '0')}-07`;
    return `  - date: ${date}
    by: Orla Venn
    kind: recheck
    found:
      a: { state: open, top: 17, top-found: seen, wall: 43, tool: tape }
    photos:
      - { file: '${file}', foot: LH, claw: outer, view: sole, when: after }
`;
  });
  return `---
casefile: 1
animal: "2086"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
${visits.join('')}---
`;
}

function folderShowing(pictures: Record<string, Uint8Array>, named = Object.keys(pictures)) {
  const inFolder = Object.entries(pictures).map(
    ([file, bytes]) => [`cases/quernholt/${file}`, bytes] as const,
  );
  return folderWith({
    'cases/quernholt/farm.md': farmFile,
    'cases/quernholt/2086.md': animalShown(...named),
    ...Object.fromEntries(inFolder),
  });
}

const bookIn = (folder: string) => readFileSync(join(folder, 'books/quernholt.html'), 'utf8');
const embeddedIn = (html: string): Buffer[] =>
  [...html.matchAll(/<img src="data:image\/jpeg;base64,([^"]+)"/g)].map(([, data]) =>
    Buffer.from(data!, 'base64'),
  );

let rough: Record<string, Uint8Array>;
beforeAll(async () => {
  const pictures = await Promise.all(Array.from({ length: 8 }, (_, at) => roughPicture(at + 1, 700, 525)));
  rough = Object.fromEntries(pictures.map((bytes, at) => [`photos/day-${at + 1}.jpg`, bytes]));
});

test('a picture in a book says nothing of place and camera, and is upright', async () => {
  const taken = await fromAPhone();
  expect((await gps(taken)).latitude).toBe(51.5);
  const { folder, growdown } = folderShowing({ 'photos/phone.jpg': taken });
  expect(await growdown('books')).toMatchObject({ code: 0, err: '' });
  const html = bookIn(folder);
  const [picture, ...others] = embeddedIn(html);
  expect(others).toEqual([]);
  expect(await gps(picture!)).toBeUndefined();
  expect(await parse(picture!, true)).toBeUndefined();
  expect(tellTales.filter((tell) => picture!.includes(tell))).toEqual([]);
  expect(html).not.toContain('Odderingworks');
  expect(await sharp(picture).metadata()).toMatchObject({ width: 300, height: 400 });
  expect(html).toMatch(
    /<img [^>]+ width="300" height="400" alt="2086: left hind, outer claw, sole, after the trim, 7 January 2025">/,
  );
  expect(html).not.toContain('loading=');
  const report = await new HtmlValidate({
    extends: ['html-validate:recommended'],
    rules: { 'long-title': 'off' },
  }).validateString(html);
  expect(report.results.flatMap(({ messages }) => messages)).toEqual([]);
});

test('a name written with the other stroke finds its picture, and no gap is raised', async () => {
  const { folder, growdown } = folderShowing({ 'photos/phone.jpg': await fromAPhone() }, [
    'photos\\phone.jpg',
  ]);
  expect((await growdown('books')).code).toBe(0);
  expect(embeddedIn(bookIn(folder))).toHaveLength(1);
  expect((await growdown('check')).err).not.toContain('photo-missing');
});

test('many pictures: the book keeps within its size, says so, and shows them all', async () => {
  const { folder, growdown } = folderShowing(rough);
  const whole = await growdown('books');
  const large = Buffer.byteLength(bookIn(folder));
  expect(whole.out).not.toContain('to keep the book under');
  const asked = ((large * 0.8) / 1e6).toFixed(3);

  const run = await growdown('books', '--max-mb', asked);
  const html = bookIn(folder);
  expect(Buffer.byteLength(html)).toBeLessThanOrEqual(Number(asked) * 1e6);
  expect(run).toMatchObject({ code: 0, err: '' });
  expect(run.out).toContain('8 pictures, ');
  expect(run.out).toContain(`made smaller to keep the book under ${Number(asked)} MB.`);
  expect(embeddedIn(html)).toHaveLength(8);
  const [last = ''] = /id="farm"[^]*/.exec(html) ?? [];
  expect(last).toContain(`They were made smaller to keep the book under ${Number(asked)} MB.`);
  await growdown('books', '--max-mb', asked);
  expect(bookIn(folder) === html).toBe(true);
});

test('where not even the smallest fit, the oldest are left out by name, in the book and by the command', async () => {
  const { folder, growdown } = folderShowing(rough);
  const bare = await growdown('books', '--max-mb', '0.01', '--json');
  const words = JSON.parse(bare.out).books[0] as {
    bytes: number;
    pictures: { made: number; leftOut: string[] };
  };
  expect(words.pictures).toMatchObject({ made: 0, leftOut: Object.keys(rough) });
  expect(bare.err).toMatch(/quernholt: the book is 0\.\d MB without any picture, more than the 0\.01 MB/);

  const mb = ((words.bytes + 60_000) / 1e6).toFixed(3);
  const run = await growdown('books', '--max-mb', mb);
  const html = bookIn(folder);
  expect(Buffer.byteLength(html)).toBeLessThanOrEqual(Number(mb) * 1e6);
  const shown = embeddedIn(html).length;
  expect(shown).toBeGreaterThan(0);
  expect(shown).toBeLessThan(8);
  for (const [at, file] of Object.keys(rough).entries()) {
    expect(html).toContain(`File: ${file}`);
    expect(run.err.includes(`quernholt/${file}: Left out`), file).toBe(at < 8 - shown);
  }
  expect(html.split(`Left out to keep the book under ${Number(mb)} MB.`)).toHaveLength(8 - shown + 1);
  expect(run.code).toBe(0);
});

test('a damaged picture is named in the book and by the command, and the book is written', async () => {
  const whole = await roughPicture(1, 600, 450);
  const { folder, growdown } = folderShowing({ 'photos/cut.jpg': whole.subarray(0, whole.length / 2) });
  const run = await growdown('books');
  expect(run.code).toBe(0);
  expect(run.err).toMatch(/^quernholt\/photos\/cut\.jpg: The picture could not be read: the file is damaged/);
  const html = bookIn(folder);
  expect(html).toContain('The picture could not be read: the file is damaged');
  expect(html).toContain('File: photos/cut.jpg');
  expect(embeddedIn(html)).toEqual([]);
});

test.each(['0', '-1', 'six', '6e9'])('--max-mb %s is refused', async (mb) => {
  const { growdown } = folderShowing({});
  expect(await growdown('books', `--max-mb=${mb}`)).toMatchObject({
    code: 2,
    err: expect.stringMatching(/above 0/),
  });
});

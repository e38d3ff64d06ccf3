/**
 * Cuts the face of every page out of its package, and writes how wide each of its characters is.
 *
 * Run by hand after a change here or of the package: `node tests/face/cut-face.mjs`. A test runs it too and compares.
 *
 * Why this face: of the open sans faces that were compared (Source Sans 3, Atkinson Hyperlegible Next, Arimo, Public
 * Sans, IBM Plex Sans) its figures are the narrowest by a tenth and stay open in small grey print, all figures are of one
 * width, and it alone has the whole of Latin Extended-A, fractions and arrows. Cut, it weighs 41 kB encoded.
 *
 * Why no kerning: a line is then exactly as wide as the sum of its letters, and what must fit a side can be summed up without
 * a browser.
 *
 * Why another name: its licence reserves the word "Source" for the uncut face.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as fontkit from 'fontkit';
import { convert } from 'fontverter';
import { format } from 'prettier';
import subsetFont from 'subset-font';

export const faceName = 'Growdown Sans';
const pack = dirname(createRequire(import.meta.url).resolve('@expo-google-fonts/source-sans-3/package.json'));
const cuts = {
  regular: '400Regular/SourceSans3_400Regular.ttf',
  bold: '700Bold/SourceSans3_700Bold.ttf',
};

/** Latin with all its accents, loose accents too (a file name from a Mac), the signs that pages and people write. */
const characters = [
  [0x20, 0x7e],
  [0xa0, 0x17f],
  [0x1cd, 0x1dc],
  [0x1e6, 0x1e7],
  [0x218, 0x21b],
  [0x300, 0x304],
  [0x306, 0x30c],
  [0x326, 0x328],
  [0x1e80, 0x1e85],
  [0x1ef2, 0x1ef3],
  [0x2010, 0x2015],
]
  .flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, at) => from + at))
  .concat([...'ẞˆˇ˘˙˚˛˜˝‘’‚“”„†•…‰′″‹›⁄⁴€™←↑→↓−√∞≈≠≤≥▲☐✓⅓⅔⅛⅜⅝⅞ΔΩμπσ'].map((sign) => sign.codePointAt(0)))
  .map((code) => String.fromCodePoint(code))
  .join('');

/** The two weights as WOFF2, the licence, and `text-widths.json`. */
export async function cutFace() {
  const made = {};
  const widths = {};
  for (const [weight, file] of Object.entries(cuts)) {
    const cut = await subsetFont(readFileSync(join(pack, file)), characters, {
      targetFormat: 'sfnt',
      keepFeatures: ['ccmp', 'mark', 'mkmk'],
      noLayoutClosure: true,
      dropTables: ['BASE', 'STAT'],
    });
    widths[weight] = widthsOf(fontkit.create(cut));
    made[`face/${weight}.woff2`] = await convert(asOurs(cut, weight), 'woff2');
  }
  made['face/LICENSE.txt'] = readFileSync(join(pack, 'LICENSE_FONT'), 'utf8').replaceAll('\r', '');
  made['text-widths.json'] = await format(
    JSON.stringify({
      about: `Advance widths of ${faceName}, in thousandths of the type size: each width with the characters that have it. Other characters count as other. Written by tests/face/cut-face.mjs.`,
      other: 1000,
      ...widths,
    }),
    { parser: 'json', printWidth: 110 },
  );
  return made;
}

/** `{ "497": "0123456789", … }`, narrowest first. Marks that are over another letter have no width. */
function widthsOf(font) {
  const groups = {};
  for (const character of characters) {
    const code = character.codePointAt(0);
    if (!font.hasGlyphForCodePoint(code)) throw new Error(`the face has no ${character}`);
    const width = Math.round((font.glyphForCodePoint(code).advanceWidth * 1000) / font.unitsPerEm);
    groups[width] = (groups[width] ?? '') + character;
  }
  return groups;
}

/**
 * How far a line reaches over and under its base, thousandths of the type size: as far as capitals with an accent and
 * letters below the line do. The face came with 1024 and 400, so that a heading at the head of a sheet reached, unseen, into
 * the sheet before and was read out twice from a PDF.
 */
const [ascent, descent] = [900, 240];

/** The same font under the name of the cut, its copyright and licence kept. Sums over tables are made anew by WOFF2. */
function asOurs(sfnt, weight) {
  const style = weight === 'bold' ? 'Bold' : 'Regular';
  const licence = readFileSync(join(pack, 'LICENSE_FONT'), 'utf8');
  const names = nameTable({
    0: licence.split('\n')[0].trim(),
    1: faceName,
    2: style,
    3: `${faceName} ${style}, cut`,
    4: `${faceName} ${style}`,
    5: 'Version 1.0',
    6: `${faceName.replaceAll(' ', '')}-${style}`,
    13: 'This Font Software is licensed under the SIL Open Font License, Version 1.1.',
    14: 'https://openfontlicense.org',
  });
  const count = sfnt.readUInt16BE(4);
  const tables = Array.from({ length: count }, (_, at) => {
    const entry = 12 + 16 * at;
    const tag = sfnt.toString('latin1', entry, entry + 4);
    const start = sfnt.readUInt32BE(entry + 8);
    return { tag, data: sfnt.subarray(start, start + sfnt.readUInt32BE(entry + 12)) };
  }).map((table) => (table.tag === 'name' ? { ...table, data: names } : table));
  const table = (tag) => tables.find((one) => one.tag === tag).data;
  [ascent, -descent, 0].forEach((value, at) => {
    table('hhea').writeInt16BE(value, 4 + 2 * at);
    table('OS/2').writeInt16BE(value, 68 + 2 * at);
  });
  [ascent, descent].forEach((value, at) => table('OS/2').writeUInt16BE(value, 74 + 2 * at));
  const head = Buffer.from(sfnt.subarray(0, 12 + 16 * count));
  const parts = [head];
  let at = head.length;
  for (const [index, { data }] of tables.entries()) {
    head.writeUInt32BE(at, 12 + 16 * index + 8);
    head.writeUInt32BE(data.length, 12 + 16 * index + 12);
    const padded = Buffer.alloc(Math.ceil(data.length / 4) * 4);
    data.copy(padded);
    parts.push(padded);
    at += padded.length;
  }
  return Buffer.concat(parts);
}

/** A `name` table of the OpenType form 0: English (United States), UTF-16. */
function nameTable(names) {
  const entries = Object.entries(names).map(([id, text]) => ({
    id: Number(id),
    text: Buffer.from(text, 'utf16le').swap16(),
  }));
  const head = Buffer.alloc(6 + 12 * entries.length);
  head.writeUInt16BE(entries.length, 2);
  head.writeUInt16BE(head.length, 4);
  let at = 0;
  for (const [index, { id, text }] of entries.entries()) {
    [3, 1, 0x409, id, text.length, at].forEach((value, field) =>
      head.writeUInt16BE(value, 6 + 12 * index + 2 * field),
    );
    at += text.length;
  }
  return Buffer.concat([head, ...entries.map(({ text }) => text)]);
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const [name, bytes] of Object.entries(await cutFace()))
    writeFileSync(new URL(`../../shared/${name}`, import.meta.url), bytes);

import { readdirSync, readFileSync } from 'node:fs';
import { create, type Font } from 'fontkit';
import { expect, test } from 'vitest';
import { pageCss } from '../../src/book/layout-css.js';
import { cutFace } from './cut-face.mjs';

const shared = new URL('../../shared/', import.meta.url);
const made = await cutFace();
const faces = ['regular', 'bold'].map(
  (weight) => create(readFileSync(new URL(`face/${weight}.woff2`, shared))) as Font,
);

test('the files in shared/ are what the script cuts today', () => {
  for (const [name, bytes] of Object.entries(made))
    expect(readFileSync(new URL(name, shared)).equals(Buffer.from(bytes)), name).toBe(true);
});

test('both weights weigh 60 kB encoded at the most, and are in the style of a page', () => {
  const css = pageCss();
  const encoded = [...css.matchAll(/url\(data:font\/woff2;base64,([^)]+)\)/g)].map(([, data]) => data!);
  expect(encoded).toHaveLength(2);
  expect(encoded.join('').length).toBeLessThanOrEqual(60_000);
});

test('it has its own name, and carries the copyright and licence of the face it was cut from', () => {
  for (const face of faces) {
    expect(face.familyName).toBe('Growdown Sans');
    expect(`${face.fullName} ${face.postscriptName}`).not.toContain('Source');
    expect(face.copyright).toContain('Adobe');
  }
  const licence = readFileSync(new URL('face/LICENSE.txt', shared), 'utf8');
  expect(licence).toContain('Reserved Font Name');
  expect(licence).toContain('SIL OPEN FONT LICENSE Version 1.1');
});

test('it has every character of the words of all languages, of Spanish, Polish, Romanian and Welsh', () => {
  const folder = new URL('words/', shared);
  const words = readdirSync(folder).map((name) => readFileSync(new URL(name, folder), 'utf8'));
  const others = 'áéíñóúü¿¡«» ąćęłńóśźż ăâîșț ŵŷẁẃẅỳ ÁÉÍÑÓÚÜ ĄĆĘŁŃÓŚŹŻ ĂÂÎȘȚ ŴŶ';
  const used = [...new Set([...words, others].join(''))].filter((character) => character >= ' ');
  expect(used.length).toBeGreaterThan(120);
  for (const face of faces)
    expect(used.filter((character) => !face.hasGlyphForCodePoint(character.codePointAt(0)!))).toEqual([]);
});

test('all figures are of one width', () => {
  for (const face of faces) {
    const widths = [...'0123456789'].map((figure) => face.layout(figure).advanceWidth);
    expect(new Set(widths).size).toBe(1);
  }
});

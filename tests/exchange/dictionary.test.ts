import { expect, it } from 'vitest';
import { sheets } from '../../src/exchange/sheets.js';
import { dictionaryTables, saidOf } from '../../src/reference/dictionary.js';
import { saidAt, wordsOf } from '../../src/reference/words.js';

const words = wordsOf('en-GB');
const endOf = (place: string) => saidAt(words, 'says', place.replaceAll(/[[\]{}]/g, ''));

const places = sheets.flatMap(({ place, columns }) => [place, ...columns.map((column) => column.place)]);
const declared = new Set(Object.values(dictionaryTables).map(({ at }) => at));

it('every key of the record model is reported in the dictionary, and every table', () => {
  expect(places.filter((place) => !declared.has(place) && saidOf(place) === undefined)).toEqual([]);
});

it('nothing in the dictionary is left over', () => {
  const used = new Set(places.map(endOf));
  const ofExport = ['farm-slug', 'animal-slug', 'narrative'].map((name) => `key.${name}.says`);
  const said = words.keys.filter((key) => /^key\..*\.says$/.test(key));
  expect(said.length).toBeGreaterThan(100);
  expect(said.filter((key) => !used.has(key) && !ofExport.includes(key))).toEqual([]);
  expect([...declared].filter((at) => !places.includes(at))).toEqual([]);
});

it('of two ends of a place the longer one decides', () => {
  expect(endOf('animal.visits[].products[].on')).toBe('key.products.on.says');
  expect(endOf('animal.visits[].nothing-of-the-kind')).toBeUndefined();
});

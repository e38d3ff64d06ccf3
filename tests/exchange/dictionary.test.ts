import { expect, it } from 'vitest';
import { type Table, tableOf } from '../../src/exchange/table.js';
import { animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';
import { dictionaryKeys, dictionaryTables, endOf, saidOf } from '../../src/reference/study-results.js';

const apart = new Set(Object.values(dictionaryTables).map(({ at }) => at));
const tables = (table: Table): Table[] => [table, ...table.nested.flatMap((one) => tables(one.table))];
const all = [
  tableOf(business, 'business', apart),
  tableOf(farm, 'farm', apart),
  tableOf(animal, 'animal', apart),
].flatMap(tables);
const places = all.flatMap(({ place, columns }) => [place, ...columns.map((column) => column.place)]);
const declared = new Set(Object.values(dictionaryTables).map(({ at }) => at));

it('every key of the record model is told in the dictionary, and every table', () => {
  expect(places.filter((place) => !declared.has(place) && saidOf(place) === undefined)).toEqual([]);
});

it('nothing in the dictionary is left over', () => {
  const used = new Set(places.map(endOf));
  const ofExport = ['farm-slug', 'animal-slug', 'narrative'];
  expect(Object.keys(dictionaryKeys).filter((end) => !used.has(end) && !ofExport.includes(end))).toEqual([]);
  expect([...declared].filter((at) => !places.includes(at))).toEqual([]);
});

it('of two ends of a place the longer one tells it', () => {
  expect(endOf('animal.visits[].products[].on')).toBe('products[].on');
  expect(endOf('animal.visits[].nothing-of-the-kind')).toBeUndefined();
});

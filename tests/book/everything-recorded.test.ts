import { expect, test } from 'vitest';
import { z } from 'zod';
import { type AnnexPage, composeAnnex, renderAnnex, wholeRecord } from '../../src/book/annex.js';
import { composeBook, placeCases } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { wordsOf } from '../../src/reference/words.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { animal, type Animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm, type Farm } from '../../src/record/farm.js';
import { fullAnimal, fullFarm, fullPractice } from './full-practice.js';
import { expectedText, leaves } from './recorded-values.js';

const words = wordsOf('en-GB');

function textOf(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/s, '')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');
}

const today = '2026-03-10';
const noPicture = { read: () => undefined };
const full = composeAnnex(fullPractice, fullFarm, today, noPicture);

const worked = placeCases([
  workOutCase(fullFarm, fullFarm.cases[0]!, {
    business: fullPractice.business,
    today,
    prior: publishedPrior,
  }),
])[0]!;

/** The part of an annex that only says again what was written of her; her standing stays that of the whole record. */
function recordPages(one: Animal): string {
  const record = { ...worked.record, animal: one };
  return JSON.stringify(wholeRecord(words, fullPractice, fullFarm, { ...worked, record }, noPicture));
}

/** The tables of the farm's page that say again what was written; the others are worked out. */
const tablesOfRecord = new Set(['herd-periods', 'gait-rounds', 'footbath-recorded']);

function settingPages(page: AnnexPage): string {
  const repeated = page.farm.tables.filter(({ id }) => tablesOfRecord.has(id));
  const baths = page.footbath?.sections.filter(({ id }) => tablesOfRecord.has(id));
  return JSON.stringify([{ ...page.farm, tables: repeated }, baths, page.last]);
}

/** The record with one value less, once for every value it can do without and still be a record. */
function removals<S extends z.ZodType>(record: z.output<S>, schema: S) {
  return withoutOne(record).flatMap(({ path, record: less }) => {
    const read = schema.safeParse(less);
    return read.success ? [{ path, record: read.data }] : [];
  });
}

function withoutOne(record: unknown, path: (string | number)[] = []): { path: string; record: unknown }[] {
  if (typeof record !== 'object' || record === null) return [];
  return Object.keys(record).flatMap((key) => {
    const copy: Record<string, unknown> = structuredClone(record) as Record<string, unknown>;
    const value = copy[key];
    const here = [...path, key];
    const inside = withoutOne(value, here).map((each) => ({
      path: each.path,
      record: Array.isArray(copy)
        ? (copy as unknown[]).map((one, at) => (String(at) === key ? each.record : one))
        : { ...copy, [key]: each.record },
    }));
    if (typeof value === 'object') return inside;
    const without: unknown = Array.isArray(copy)
      ? (copy as unknown[]).filter((_, at) => String(at) !== key)
      : Object.fromEntries(Object.entries(copy).filter(([name]) => name !== key));
    return [...inside, { path: here.join('.'), record: without }];
  });
}

const recorded = [
  ...leaves(fullAnimal, 'animal', '', {}),
  ...leaves(fullFarm.farm, 'farm', '', {}),
  ...leaves(fullPractice.business, 'business', '', {}),
];

/** The herd as one map, which holds always: another form of the list. */
const onePeriod = { from: '2024-04-01', cows: 196, housing: 'grazed' } as const;

test('a herd written as one map is printed as a list of one', () => {
  const pagesWith = (herd: Farm['herd']) =>
    settingPages(
      composeAnnex(fullPractice, { ...fullFarm, farm: { ...fullFarm.farm, herd } }, today, noPicture),
    );
  expect(pagesWith(onePeriod)).toBe(pagesWith([onePeriod]));
});

test('every key of the format, wherever it may be, is filled in the record this test prints', () => {
  const empty = [
    ...unfilled(animal, [fullAnimal], 'animal'),
    ...unfilled(farm, [fullFarm.farm, { ...fullFarm.farm, herd: onePeriod }], 'farm'),
    ...unfilled(business, [fullPractice.business], 'business'),
  ];
  expect(empty.map(({ at }) => at)).toEqual([]);
});

test('a key added anywhere to the format fails that test until a value is in the record', () => {
  const places = [...keysOf(animal), ...keysOf(farm), ...keysOf(business)];
  expect(places.length).toBeGreaterThan(160);
  const grown = animal.extend({ hoofprint: z.string().optional() });
  expect(unfilled(grown, [fullAnimal], 'animal')).toEqual([{ at: 'animal.hoofprint' }]);
  const visit = z.object({ visits: z.array(z.object({ feet: z.record(z.string(), z.object({ colour: z.string().optional() })) })) }); // prettier-ignore
  expect(unfilled(visit, [fullAnimal], 'animal')).toEqual([{ at: 'animal.visits[].feet.*.colour' }]);
});

test('what the farm and the business declare is printed in its place', () => {
  for (const gone of removals(fullFarm.farm, farm)) {
    const page = composeAnnex(fullPractice, { ...fullFarm, farm: gone.record }, today, noPicture);
    expect(settingPages(page), gone.path).not.toBe(settingPages(full));
  }
  for (const gone of removals(fullPractice.business, business)) {
    const page = composeAnnex({ ...fullPractice, business: gone.record }, fullFarm, today, noPicture);
    expect(settingPages(page), gone.path).not.toBe(settingPages(full));
  }
});

test('taking any one value out of a case changes the pages that only repeat the record', () => {
  const gone = removals(fullAnimal, animal);
  expect(gone.length).toBeGreaterThan(130);
  const whole = recordPages(fullAnimal);
  for (const { path, record } of gone) expect(recordPages(record), path).not.toBe(whole);
});

test('nothing recorded is missing from the annex', () => {
  const text = textOf(renderAnnex(full));
  const missing = recorded
    .map((leaf) => ({ path: leaf.path, text: expectedText(words, leaf) }))
    .filter((leaf) => leaf.text !== undefined && !text.includes(leaf.text));
  expect(missing).toEqual([]);
});

test('her story is in the book and in the annex, and neither names the farm she came from', async () => {
  const book = await renderBook(composeBook(fullPractice, fullFarm, today));
  for (const text of [renderAnnex(full), book].map(textOf)) {
    expect(text).toMatch(/She stands\s+square\s+on the mat\./);
    expect(text).not.toContain('harrowmere');
  }
});

/** Every place of a schema where a key may be that none of the values fills. */
function unfilled(schema: unknown, values: readonly unknown[], at: string): { at: string }[] {
  const definition = (schema as { def?: Record<string, unknown> } | undefined)?.def;
  if (!definition) return [];
  const shape = (definition['shape'] as Record<string, unknown> | undefined) ?? {};
  const keys = Object.entries(shape).flatMap(([key, inside]) => {
    const here = values.map((value) => (value as Record<string, unknown>)[key]).filter((value) => value !== undefined); // prettier-ignore
    return here.length === 0 ? [{ at: `${at}.${key}` }] : unfilled(inside, here, `${at}.${key}`);
  });
  const listed = values.flatMap((value) => (Array.isArray(value) ? value : []));
  const named = values.flatMap((value) => (typeof value === 'object' && value !== null ? Object.values(value) : [])); // prettier-ignore
  const options = (definition['options'] as z.ZodType[] | undefined) ?? [];
  return [
    ...keys,
    ...unfilled(definition['element'], listed, `${at}[]`),
    ...unfilled(definition['valueType'], named, `${at}.*`),
    ...['innerType', 'in', 'out'].flatMap((key) => unfilled(definition[key], values, at)),
    ...options.flatMap((option) => unfilled(option, values.filter((value) => option.safeParse(value).success), at)), // prettier-ignore
  ];
}

/** All keys of a schema, however deep. */
function keysOf(schema: unknown): string[] {
  const definition = (schema as { def?: Record<string, unknown> } | undefined)?.def;
  if (!definition) return [];
  const inner = ['innerType', 'in', 'out', 'element', 'valueType'].map((key) => definition[key]);
  const options = (definition['options'] as unknown[] | undefined) ?? [];
  const shape = (definition['shape'] as Record<string, unknown> | undefined) ?? {};
  return [
    ...Object.entries(shape).flatMap(([key, value]) => [key, ...keysOf(value)]),
    ...[...inner, ...options].flatMap((each) => keysOf(each)),
  ];
}

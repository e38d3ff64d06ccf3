import { expect, test } from 'vitest';
import { keysOf, wantedBy } from '../../src/casefile/wanted.js';
import { checkKeysOfLesion } from '../../src/casefile/check/lesions-declared.js';
import { fitsLesion, visitForm } from '../../src/form/visit-form.js';
import { type Field, labelOf, formLayout } from '../../src/form/field.js';
import type { Animal } from '../../src/record/animal.js';
import { placesOf, type VisitPlace } from '../../src/record/key.js';
import { found, visit } from '../../src/record/visit.js';
import { lesionCodes } from '../../src/record/words.js';
import { wordsOf } from '../../src/reference/words.js';
import { made } from './made-for.js';

const words = wordsOf('en-GB');

/** Every key a form has a field for, wherever it is. */
function keysIn(field: Field): string[] {
  if (field.kind === 'answer') return [field.key];
  return [field.key, ...(field.kind === 'group' ? field.fields : field.entries).flatMap(keysIn)];
}

function namesIn(field: Field): string[] {
  if (field.kind === 'answer') return [field.name];
  return (field.kind === 'group' ? field.fields : field.entries).flatMap(namesIn);
}

test('every key of a visit has its place in the form, no two the same, and one added does not compile without', () => {
  const places = Object.values(placesOf(visit)).map(({ form }) => form);
  expect(places.filter((form) => form === undefined)).toEqual([]);
  const parts = places.filter((form) => form !== 'none');
  expect(new Set(parts).size).toBe(parts.length);
  // @ts-expect-error a key of a visit that does not say where it stands in the form does not compile
  const without: VisitPlace = { sheet: 'walk 9/1', more: 99, log: 'about' };
  expect(without.form).toBeUndefined();
});

test('every key anywhere in a visit has a field, and every field its words', () => {
  const form = visitForm(made, new Map());
  const fields = [...form.fields.values()];
  const has = new Set(fields.flatMap(keysIn));
  const left = new Set(['file', 'amended']);
  const inAmended = keysOf(wantedBy(visit.shape.amended));
  const missing = [...keysOf(wantedBy(visit))].filter(
    (key) => !has.has(key) && !left.has(key) && !inAmended.has(key),
  );
  expect(missing).toEqual([]);
  for (const name of [...fields, ...form.declared].flatMap(namesIn))
    expect(labelOf(words, name)).not.toBe('');
});

test('what fits a lesion is what the checks of the reader take, for every code and key', () => {
  const sample: Record<string, unknown> = {
    state: 'open',
    stage: 'M1',
    tool: 'ruler',
    code: undefined,
    signs: ['heat'],
    joined: 'b',
    note: 'x',
  };
  const wrong: string[] = [];
  for (const code of lesionCodes)
    for (const key of Object.keys(found.shape)) {
      if (key === 'code') continue;
      const value =
        sample[key] ?? (found.shape[key as keyof typeof found.shape].safeParse(true).success ? true : 10);
      const animal = {
        casefile: 1,
        animal: '1',
        lesions: { a: { code, foot: 'LH' } },
        visits: [{ date: '2026-01-06', by: 'x', kind: 'first', found: { a: { [key]: value } } }],
      } as unknown as Animal;
      if (([...checkKeysOfLesion(animal)].length === 0) !== fitsLesion(key, code))
        wrong.push(`${code} ${key}`);
    }
  expect(wrong).toEqual([]);
});

test('only words that fit are offered', () => {
  const form = visitForm(made, new Map());
  const at = (name: string): readonly string[] => {
    const all = [...form.fields.values(), ...form.declared].flatMap(function answers(field): Field[] {
      return field.kind === 'answer'
        ? [field]
        : (field.kind === 'group' ? field.fields : field.entries).flatMap(answers);
    });
    const field = all.find((one) => one.name === name);
    return field?.kind === 'answer' ? field.choices : ['none'];
  };
  expect(at('gait')).toEqual(['0', '1', '2', '3']);
  expect(at('found.a.state')).toEqual(['open', 'covered', 'healed', 'lasting']);
  expect(at('found.d.state')).toEqual(['healed', 'present']);
  expect(at('found.b.top')).toEqual(['none']);
  expect(at('found.a.joined')).not.toContain('a');
  expect(at('lesions.f.code')).toContain('WL');
});

test('a list has room for all that is answered, and for more where that is asked', () => {
  const rooms = (values: Map<string, string[]>): number => {
    const field = visitForm(made, values).fields.get('blocks');
    return field?.kind === 'entries' ? field.entries.length : 0;
  };
  expect(rooms(new Map())).toBe(2);
  expect(rooms(new Map([['blocks.3.foot', ['']]]))).toBe(4);
  expect(rooms(new Map([['more', ['more']]]))).toBe(4);
  expect(
    rooms(
      new Map([
        ['more', ['more']],
        ['blocks.3.foot', ['LH']],
      ]),
    ),
  ).toBe(6);
  expect(rooms(new Map([['blocks.999.foot', ['LH']]]))).toBe(formLayout.mostRoom);
});

import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jsonSchemas } from '../../src/exchange/json-schemas.js';
import { rawRecordsUnder } from './raw-records.js';
import { validators } from './validators.js';

const good = [...rawRecordsUnder('cases'), ...rawRecordsUnder('tests/casefiles/good')];
const bad = rawRecordsUnder('tests/casefiles/bad');

it('every record of the demo and of the good files is valid', () => {
  expect(good.length).toBeGreaterThan(35);
  const refused = good.filter(({ schemaFile, value }) => !validators[schemaFile](value));
  expect(refused.map(({ file }) => file)).toEqual([]);
});

it('what the schemas refuse of the bad files is what the model refuses, and names the reader keeps for itself', () => {
  const unlike = bad.filter(
    ({ schemaFile, model, value }) => validators[schemaFile](value) !== model.safeParse(value).success,
  );
  expect(unlike.map(({ file }) => file)).toEqual([
    'tests/casefiles/bad/key--reserved/quernholt/2087.md',
    'tests/casefiles/bad/key--reserved/quernholt/2088.md',
  ]);
});

/** Bad cases whose fault the shape of the record shows; all others are between keys, days or files, or in the writing. */
const seenBySchema = [
  'key--elsewhere',
  'key--missing',
  'key--name-form',
  'key--reserved',
  'key--unknown',
  'value--day-form',
  'value--decimal-comma',
  'value--empty',
  'value--format-newer',
  'value--format-version',
  'value--name-form',
  'value--no-such-day',
  'value--not-a-group',
  'value--not-a-list',
  'value--not-a-number',
  'value--not-a-time',
  'value--not-known',
  'value--not-text',
  'value--not-true-or-false',
  'value--not-whole',
  'value--number-form',
  'value--out-of-range',
  'value--quoted-number',
  'value--unit',
  'value--unknown-word',
  'yaml--anchor',
  'yaml--comment-in-text',
  'yaml--equals-sign',
  'yaml--exclamation',
  'yaml--indentation',
  'yaml--no-space-after-colon',
  'yaml--no-space-after-hyphen',
  'yaml--not-keys',
  'yaml--unclosed-bracket',
];

it('refuses each bad case that a schema can see', () => {
  const seen = bad.filter(({ schemaFile, value }) => !validators[schemaFile](value));
  const folders = new Set(seen.map(({ file }) => file.split('/')[3]!));
  expect([...folders].sort()).toEqual(seenBySchema);
  const ofShape = readdirSync(new URL('../casefiles/bad', import.meta.url)).filter((name) =>
    /^(?:key|value)--/.test(name),
  );
  expect(ofShape.filter((name) => !folders.has(name))).toEqual([]);
});

describe('the schemas', () => {
  const texts = jsonSchemas();
  it('say what every key holds, with its unit', () => {
    const animal = JSON.parse(texts['animal.schema.json']) as {
      $defs: { found: { properties: Record<string, unknown> } };
    };
    expect(animal.$defs.found.properties['top']).toMatchObject({
      type: 'number',
      minimum: 0,
      maximum: 200,
      description: expect.stringMatching(/Unit: mm\.$/) as unknown,
    });
  });

  it.each([
    ['1899-12-31', false],
    ['1900-01-01', true],
    ['2199-12-31', true],
    ['2200-01-01', false],
    ['2026-02-29', false],
  ])('take the day %s: %s', (born, taken) => {
    expect(
      validators['animal.schema.json']({ casefile: 1, animal: '1', born, lesions: {}, visits: [] }),
    ).toBe(taken);
  });

  it('are of draft 2020-12 and the same bytes each time', () => {
    expect(jsonSchemas()).toEqual(texts);
    for (const text of Object.values(texts))
      expect(JSON.parse(text)).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' });
  });
});

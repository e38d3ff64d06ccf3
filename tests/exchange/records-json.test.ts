import { describe, expect, it } from 'vitest';
import { recordsAsJson } from '../../src/exchange/records-json.js';
import { practiceIn } from './practice-in.js';
import { validators } from './validators.js';

describe.each([
  'cases',
  ...['every-key', 'odd-but-legal', 'smallest', 'ten-years'].map((name) => `tests/casefiles/good/${name}`),
])('the records of %s', (folder) => {
  const practice = practiceIn(folder);
  const text = recordsAsJson(practice);
  const read: unknown = JSON.parse(text);

  it('are valid by their schema', () => {
    const valid = validators['records.schema.json'](read);
    expect(validators['records.schema.json'].errors ?? []).toEqual([]);
    expect(valid).toBe(true);
  });

  it('hold every record, narrative and name, and are the same bytes again', () => {
    const animals = practice.farms.flatMap(({ cases }) => cases);
    expect(animals.length).toBeGreaterThan(0);
    expect((read as { farms: { animals: unknown[] }[] }).farms.flatMap((farm) => farm.animals)).toEqual(
      animals.map(({ slug, animal, narrative }) => ({
        slug,
        record: animal,
        ...(narrative === '' ? {} : { narrative }),
      })),
    );
    expect(recordsAsJson(practiceIn(folder))).toBe(text);
  });
});

it('one farm alone leaves the others out', () => {
  const practice = practiceIn('cases');
  const text = recordsAsJson({
    ...practice,
    farms: practice.farms.filter(({ slug }) => slug === 'quernholt'),
  });
  expect(text).toContain('"slug": "quernholt"');
  expect(text).not.toContain('"slug": "harrowmere"');
});

it('a business of which nothing is written is left out', () => {
  expect(recordsAsJson({ business: {}, narrative: '', farms: [] })).not.toContain('business');
});

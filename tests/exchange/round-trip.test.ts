import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Wanted, wantedBy } from '../../src/casefile/wanted.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { importRecords, textOf, laidOut } from '../../src/exchange/import-records.js';
import { readRecords } from '../../src/exchange/read-records.js';
import { type Records, recordsAsJson, recordsOf, type Written } from '../../src/exchange/records-json.js';
import { asIf } from '../../src/casefile/as-if.js';
import { openKept } from '../../src/keep/kept-file.js';
import { animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { anyText, anyWritten } from './any-records.js';
import { practiceIn } from './practice-in.js';
import { validators } from './validators.js';

const today = '2026-11-25';
const none = caseFilesInMemory({ 'cases/': '' });

function fromJson(text: string): Records {
  const read = readRecords(text, 'records.json');
  if (read.outcome !== 'records') throw new Error(JSON.stringify(read, null, 2));
  return read.records;
}

/** JSON → files → JSON, by every door a user goes through but the disk. */
function thereAndBack(text: string): string {
  const worked = importRecords({ files: none, cases: 'cases', today }, fromJson(text), undefined);
  if (worked.outcome !== 'change') throw new Error(JSON.stringify(worked, null, 2));
  const { practice, farmsRefused } = readPractice(asIf(none, worked.change.files), 'cases', { today });
  expect(farmsRefused).toEqual([]);
  return recordsAsJson(practice);
}

describe('JSON → files → JSON', () => {
  it.each([
    'cases',
    ...['every-key', 'odd-but-legal', 'smallest', 'ten-years'].map((name) => `tests/casefiles/good/${name}`),
  ])('of %s is the same', (folder) => {
    const text = recordsAsJson(practiceIn(folder));
    expect(thereAndBack(text)).toBe(text);
  });

  it('of whole businesses is the same, each text in them drawn anew', () => {
    const everyKey = practiceIn('tests/casefiles/good/every-key');
    fc.assert(
      fc.property(fc.array(anyText, { minLength: 40, maxLength: 40 }), fc.nat(), (texts, seed) => {
        const text = recordsAsJson(withTexts(everyKey, texts, seed));
        expect(thereAndBack(text)).toBe(text);
      }),
      { numRuns: 15, seed: 20261125 },
    );
  });

  it('of any records the model takes is the same, file by file, and valid by the schema', () => {
    fc.assert(
      fc.property(anyWritten, (written) => {
        const text = recordsAsJson(written);
        expect(validators['records.schema.json'](JSON.parse(text))).toBe(true);
        const records = fromJson(text);
        expect(records).toEqual(recordsOf(written));
        for (const one of laidOut(records, undefined)) {
          const files = caseFilesInMemory({ 'x.md': textOf(one) });
          const opened = openKept(files, { path: 'x.md', shown: 'x.md' }, one.schema, one.kind);
          if (opened.outcome !== 'open')
            throw new Error(JSON.stringify(opened) + new TextDecoder().decode(textOf(one)));
          expect({ record: opened.kept.record, narrative: opened.kept.narrative }).toEqual({
            record: one.record,
            narrative: one.narrative,
          });
        }
      }),
      { numRuns: 50, seed: 20261125 },
    );
  });
});

/** The records with each free text another; names, files and whoever is looked up by their words stay. */
function withTexts(written: Written, texts: readonly string[], seed: number): Written {
  let at = seed;
  const next = (): string => texts[(at += 1) % texts.length]!;
  const anew = (wanted: Wanted, value: unknown, key: string): unknown => {
    if (value === undefined) return undefined;
    if (wanted.kind === 'free-text') return kept.has(key) ? value : next();
    // A name is one line.
    if (wanted.kind === 'text') return kept.has(key) ? value : next().replaceAll(/[\r\n]+/g, ' ');
    if (wanted.kind === 'list') return (value as unknown[]).map((one) => anew(wanted.of, one, key));
    if (wanted.kind === 'either')
      return anew(
        wanted.forms.find(({ kind }) => (kind === 'list') === Array.isArray(value)) ?? wanted.forms[0]!,
        value,
        key,
      );
    if (wanted.kind === 'named' || wanted.kind === 'group')
      return Object.fromEntries(
        Object.entries(value as object).map(([name, inner]) => [
          name,
          anew(wanted.kind === 'group' ? wanted.keys.get(name)!.wanted : wanted.of, inner, name),
        ]),
      );
    return value;
  };
  return {
    business: anew(wantedBy(business), written.business, '') as Written['business'],
    narrative: next(),
    farms: written.farms.map((one) => ({
      ...one,
      farm: anew(wantedBy(farm), one.farm, '') as typeof one.farm,
      narrative: next(),
      cases: one.cases.map((each) => ({
        ...each,
        animal: anew(wantedBy(animal), each.animal, '') as typeof each.animal,
        narrative: next(),
      })),
    })),
  };
}

const kept = new Set(['file', 'by', 'animal', 'about']);

import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import { wantedBy } from '../../src/casefile/wanted.js';
import { animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';
import { filesUnder } from './files-under.js';
import { unused } from './unused.js';

const good = fileURLToPath(new URL('../casefiles/good', import.meta.url));
const read = (name: string): ReturnType<typeof readPractice> =>
  readPractice(filesUnder(`${good}/${name}`), 'cases', { today: '2026-11-25' });

describe.each(readdirSync(good))('%s', (name) => {
  it('reads without a word', () => {
    const { problems, farmsFound, farmsRefused } = read(name);
    expect(problems).toEqual([]);
    expect(farmsFound).toHaveLength(1);
    expect(farmsRefused).toEqual([]);
  });
});

describe('every key', () => {
  const { practice } = read('every-key');
  const [only] = practice.farms;

  it.each([
    ['an animal', animal, only?.cases[0]?.animal],
    ['a farm', farm, only?.farm],
    ['a business', business, practice.business],
  ] as const)('of %s is used', (_, schema, record) => {
    const lacking = unused(wantedBy(schema), [record]).filter(
      (path) => !/\.intervals\.|\.feet\.(?:LF|RF|RH)/.test(path),
    );
    expect(lacking).toEqual([]);
  });

  it('keeps the narrative, dashes and all', () => {
    expect(only?.cases[0]?.narrative).toBe(
      '\nHer story, with a `---` of its own below.\n\n---\n\nThe end.\n',
    );
  });
});

describe('odd but legal', () => {
  const { practice } = read('odd-but-legal');
  const record = practice.farms[0]?.cases[0]?.animal;
  const [visit] = record?.visits ?? [];

  it('keeps text as it is written, whatever else it might be', () => {
    expect(practice.farms[0]?.farm.contact?.phone).toBe('+44 1632 960001');
    expect(record).toMatchObject({ animal: '0312', electronic: '099900000400312', breed: 'true' });
    expect(visit).toMatchObject({ by: '007', at: '10:40', date: '2026-01-06', recheck: '2026-02-03' });
    expect(visit?.products).toEqual([
      { product: '12E5', batch: '12E5', amount: '1.10', active: '0x1F', route: 'null and void' },
      { product: '2026-01-06', batch: '1_000', 'given-by': 'yes', class: 'not sure' },
    ]);
    expect(visit?.found?.['a']?.note).toBe('better than #2; it\'s "so" — née Zoë');
    expect(visit?.note).toBe('Folded over two lines, with a # that is text.');
    expect(record?.handling).toBe('She kicks: mind her.   # this is text, not a comment\n\nTwice.\n');
  });

  it('makes numbers of decimal digits and true and false of yes and no', () => {
    expect(record?.['calved-before']).toBe(2);
    expect(visit?.found?.['a']).toMatchObject({ top: 17.5, wall: 43, infected: false });
    expect(visit?.['tools-disinfected']).toBe(true);
  });

  it('takes a byte order mark, CRLF and a narrative without a blank line', () => {
    expect(practice.farms[0]?.farm.farm).toBe('Quernholt');
    expect(practice.farms[0]?.narrative).toBe('Words.\r\n');
    expect(practice.farms[0]?.cases[0]?.narrative).toBe('Straight after the line.\n');
  });
});

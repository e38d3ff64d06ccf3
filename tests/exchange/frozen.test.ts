import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import { wantedBy } from '../../src/casefile/wanted.js';
import { recordsOf } from '../../src/exchange/records-json.js';
import { animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';
import * as words from '../../src/record/words.js';
import { filesUnder } from '../casefile/files-under.js';
import { unused } from '../casefile/unused.js';

/**
 * The promise of the format: a file that says `casefile: 1` reads for ever, and says the same. Nothing in these folders
 * is ever changed, taken away or made again. A key or word that comes later, like a later format, gets a folder of its
 * own beside them: `frozen-…`, practices with their `records.json`, and `hashes.txt`.
 */
const casefiles = fileURLToPath(new URL('../casefiles', import.meta.url));

/** Of each folder's list of hashes: the only place where it is written down a second time. */
const hashOfHashes: Readonly<Record<string, string>> = {
  'frozen-1': 'fd809c167a0901f7be74350b38bd3181668e5a11cc7060bd9ff633ba1b650d61',
  'frozen-1-2': '53c7a5e1ad817c81eb904e892e7607166707d7802b672366187b67e893582c1f',
  'frozen-1-3': '2a2983af72f72ca0ad7f518ab1f70b3a7644c0be78b02b22641c5d9ff8fc11db',
};
const folders = readdirSync(casefiles).filter((name) => name.startsWith('frozen-'));
const foldersIn = (folder: string): string[] =>
  readdirSync(folder).filter((name) => statSync(`${folder}/${name}`).isDirectory());

const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const read = (practice: string): ReturnType<typeof readPractice> =>
  readPractice(filesUnder(practice), 'cases', { today: '2026-11-25' });

describe.each(folders)('the files of %s', (folder) => {
  const frozen = `${casefiles}/${folder}`;
  const list = readFileSync(`${frozen}/hashes.txt`);
  const files = readdirSync(frozen, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => name !== 'hashes.txt' && statSync(`${frozen}/${name}`).isFile())
    .sort();

  it('are byte for byte what they were, none more and none less', () => {
    expect(hashOf(list)).toBe(hashOfHashes[folder]);
    const now = files.map((name) => `${hashOf(readFileSync(`${frozen}/${name}`))}  ${name}\n`);
    expect(now.join('')).toBe(list.toString('utf8'));
  });

  it.each(foldersIn(frozen))('read without an error, and say what they said: %s', (name) => {
    const { practice, problems, farmsRefused } = read(`${frozen}/${name}`);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(farmsRefused).toEqual([]);
    const said = JSON.parse(readFileSync(`${frozen}/${name}/records.json`, 'utf8')) as object;
    expect({ ...recordsOf(practice), version: 1 }).toEqual(said);
  });
});

describe('the frozen files together', () => {
  const files = folders.flatMap((folder) =>
    readdirSync(`${casefiles}/${folder}`, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.md'))
      .map((name) => readFileSync(`${casefiles}/${folder}/${name}`, 'utf8')),
  );
  const practices = folders.flatMap((folder) =>
    foldersIn(`${casefiles}/${folder}`).map((name) => read(`${casefiles}/${folder}/${name}`).practice),
  );

  it('are many, and written in many styles', () => {
    expect(files.length).toBeGreaterThan(45);
    for (const sign of ['\r\n', '\ufeff', '# ', 'visits: [', '>', '|', "'", 'é', '\\"', ': yes', 'amended'])
      expect(files.some((text) => text.includes(sign))).toBe(true);
  });

  it('hold every key of the format as it is today', () => {
    const farms = practices.flatMap((practice) => practice.farms);
    const lacking = [
      ...unused(
        wantedBy(business),
        practices.map((practice) => practice.business),
      ),
      ...unused(
        wantedBy(farm),
        farms.map((one) => one.farm),
      ),
      ...unused(
        wantedBy(animal),
        farms.flatMap(({ cases }) => cases.map((one) => one.animal)),
      ),
    ];
    expect(lacking.filter((path) => !path.startsWith('.intervals.'))).toEqual([]);
  });

  it('say every word of its closed lists', () => {
    const said = new Set<unknown>();
    JSON.stringify(practices.map(recordsOf), (key, value: unknown) => {
      said.add(key).add(value);
      return value;
    });
    const unsaid = Object.values(words).flatMap((list) => list.filter((word) => !said.has(word)));
    expect(unsaid).toEqual([]);
  });
});

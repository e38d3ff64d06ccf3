import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import { recordsOf } from '../../src/exchange/records-json.js';
import { filesUnder } from '../casefile/files-under.js';

/**
 * The promise of the format: a file that says `casefile: 1` reads for ever, and says the same. Nothing in this folder
 * is ever changed, taken away or made again; what a later format needs goes beside it, into a folder of its own.
 */
const frozen = fileURLToPath(new URL('../casefiles/frozen-1', import.meta.url));
const practices = readdirSync(frozen).filter((name) => statSync(`${frozen}/${name}`).isDirectory());

/** Of the list of hashes itself: the only place where it is written down a second time. */
const hashOfHashes = 'c856f7992e6c2b6c2a2e4110176d9d8d7caadaa06b4c722dd265f18975483ec6';

const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

describe('the frozen files', () => {
  const list = readFileSync(`${frozen}/hashes.txt`);
  const files = readdirSync(frozen, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => name !== 'hashes.txt' && statSync(`${frozen}/${name}`).isFile())
    .sort();

  it('are byte for byte what they were, none more and none less', () => {
    expect(hashOf(list)).toBe(hashOfHashes);
    const now = files.map((name) => `${hashOf(readFileSync(`${frozen}/${name}`))}  ${name}\n`);
    expect(now.join('')).toBe(list.toString('utf8'));
  });

  it('are many, and written in many hands', () => {
    const texts = files
      .filter((name) => name.endsWith('.md'))
      .map((name) => readFileSync(`${frozen}/${name}`, 'utf8'));
    expect(texts.length).toBeGreaterThan(45);
    for (const sign of ['\r\n', '\ufeff', '# ', 'visits: [', '>', '|', "'", 'é', '\\"', ': yes', 'amended'])
      expect(texts.some((text) => text.includes(sign))).toBe(true);
  });

  it.each(practices)('of %s read without an error, and say what they said', (name) => {
    const { practice, problems, farmsRefused } = readPractice(filesUnder(`${frozen}/${name}`), 'cases', {
      today: '2026-11-25',
    });
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(farmsRefused).toEqual([]);
    const said = JSON.parse(readFileSync(`${frozen}/${name}/records.json`, 'utf8')) as object;
    expect({ ...recordsOf(practice), version: 1 }).toEqual(said);
  });
});

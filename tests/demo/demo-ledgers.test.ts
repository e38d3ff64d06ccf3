import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readLedger } from '../../src/ledger/read-ledger.js';
import { daysToSeal } from '../../src/ledger/record-seal.js';
import { openSeals } from '../../src/ledger/seals-of-farm.js';
import { demo } from './read-demo.js';
import { demoLedger } from './demo-ledgers.js';

/**
 * The ledgers that lie in the demo are written by `demoLedger`. UPDATE_EXPECTED=1 writes them; that is a chain written
 * anew, which no head printed before is in.
 */
test.each(demo.practice.farms.map((farm) => [farm.slug, farm] as const))('%s', (slug, farm) => {
  const folder = new URL(`../../cases/${slug}/.growdown/`, import.meta.url);
  const file = new URL('ledger.jsonl', folder);
  const made = demoLedger(farm);
  if (process.env['UPDATE_EXPECTED'] === '1') {
    mkdirSync(folder, { recursive: true });
    writeFileSync(file, made);
  }
  expect(readFileSync(file, 'utf8')).toBe(made);
  expect(readLedger(made).faults).toEqual([]);
});

test('every record of the demo is sealed, some written late, and none before its day', () => {
  expect(demo.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const all = demo.practice.farms.map(({ slug }) => demo.sealsOf(slug)!);
  expect(all.flatMap((seals) => openSeals(seals))).toEqual([]);
  const days = all.flatMap(({ animals }) =>
    [...animals.values()].flatMap(({ visits }) => visits.map((visit) => daysToSeal(visit) ?? -1)),
  );
  expect(days.filter((count) => count < 0)).toEqual([]);
  expect(days.filter((count) => count > 7).toSorted((a, b) => a - b)).toEqual([10, 12]);
});

import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readLedger } from '../../src/ledger/read-ledger.js';
import { animalText, farmText } from '../casefile/generated-cases.js';

const writer = fileURLToPath(new URL('./write-visits.mjs', import.meta.url));

/** A program of its own that adds so many reports to one animal's file, one after another. */
function writing(cases: string, by: string, count: number): Promise<string> {
  const child = spawn(process.execPath, [writer, cases, by, String(count)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  child.stdout.on('data', (text) => (said += String(text)));
  child.stderr.on('data', (text) => (said += String(text)));
  return new Promise((done) => child.on('close', () => done(said)));
}

test('two programs adding 50 visits each at once: 100 are there', async () => {
  const cases = mkdtempSync(join(tmpdir(), 'growdown-'));
  onTestFinished(() => rmSync(cases, { recursive: true, force: true }));
  mkdirSync(join(cases, 'quernholt'));
  writeFileSync(join(cases, 'quernholt/farm.md'), farmText);
  writeFileSync(join(cases, 'quernholt/2086.md'), animalText);
  expect(await Promise.all([writing(cases, 'Orla Venn', 50), writing(cases, 'Fenn Arkwell', 50)])).toEqual([
    '50',
    '50',
  ]);
  const { practice, problems } = readPractice(nodeCaseFiles, cases, { today: '2026-11-25' });
  expect(problems).toEqual([]);
  const { visits } = practice.farms[0]!.cases[0]!.animal;
  expect(visits.filter(({ kind }) => kind === 'report')).toHaveLength(100);
  expect(new Set(visits.map(({ by, note }) => `${by} ${note}`)).size).toBe(101);
  expect(readFileSync(join(cases, 'quernholt/2086.md'), 'utf8').startsWith(animalText.slice(0, -4))).toBe(
    true,
  );
  expect(readdirSync(join(cases, 'quernholt/.growdown'))).toEqual(['ledger.jsonl', 'undo']);
  const ledger = readLedger(readFileSync(join(cases, 'quernholt/.growdown/ledger.jsonl'), 'utf8'));
  expect(ledger.faults).toEqual([]);
  expect(ledger.entries.filter(({ kind }) => kind === 'visit')).toHaveLength(101);
}, 60_000);

import { mkdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import type { CaseFiles } from '../../../src/casefile/source-text.js';
import { nodeCaseFiles } from '../../../src/casefile/node-case-files.js';
import { rememberedReading } from '../../../src/form/yard/yard-setting.js';
import { animalFile } from '../../cli/run-in-folder.js';
import { today, yardFolder } from './served.js';

function counted(files: CaseFiles = nodeCaseFiles) {
  const folder = yardFolder();
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const read: string[] = [];
  let day = today;
  const counting = { ...files, read: (path: string) => (read.push(path), files.read(path)) };
  const reading = rememberedReading(() => ({ files: counting, cases: join(folder, 'cases'), today: day }));
  const times = (): number => read.filter((path) => path.endsWith('2086.md')).length;
  return {
    at: (name: string) => join(folder, 'cases', name),
    reading,
    times,
    on: (next: string) => (day = next),
  };
}

test('case files are read once, and again when one is saved, comes, goes, or the day changes', () => {
  const { at, reading, times, on } = counted();
  const first = reading();
  expect(reading()).toBe(first);
  expect(times()).toBe(1);
  const text = animalFile('2086');
  writeFileSync(at('quernholt/2086.md'), text.replace('gait: 2', 'gait: 1'));
  utimesSync(at('quernholt/2086.md'), 1, 1);
  const saved = reading();
  expect(saved.practice.farms[0]?.cases[0]?.animal.visits[0]?.gait).toBe(1);
  writeFileSync(at('quernholt/41.md'), animalFile('41'));
  expect(reading().practice.farms[0]?.cases).toHaveLength(2);
  rmSync(at('quernholt/41.md'));
  expect(reading().practice.farms[0]?.cases).toHaveLength(1);
  mkdirSync(at('oddmere'));
  writeFileSync(at('oddmere/farm.md'), '---\nfarm: Oddmere\n---\n');
  expect(reading().practice.farms).toHaveLength(2);
  const before = times();
  on('2026-06-17');
  reading();
  expect(times()).toBe(before + 1);
  reading();
  expect(times()).toBe(before + 1);
});

test('where the system tells no time of a file, nothing is remembered', () => {
  const { reading, times } = counted({
    ...nodeCaseFiles,
    look: (path) => {
      const there = nodeCaseFiles.look(path);
      return there && { kind: there.kind, bytes: there.bytes };
    },
  });
  reading();
  reading();
  expect(times()).toBe(2);
});

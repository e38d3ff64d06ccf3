import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { type InMemory, caseFilesInMemory } from './case-files-in-memory.js';
import { animalText, farmText } from './generated-cases.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { formatProblem } from '../../src/problem/format-problem.js';

const good = fileURLToPath(new URL('../casefiles/good', import.meta.url));
const files = readdirSync(good, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.md'));
const texts = files.map((name) => readFileSync(`${good}/${name}`, 'utf8'));

/** A file gives a record or at least one error with a place to look at, and no word of it breaks the terminal. */
function givesRecordOrError(content: InMemory, name = 'quernholt/2086.md'): void {
  const other = name.endsWith('farm.md') ? {} : { 'cases/quernholt/farm.md': farmText };
  const reading = readPractice(caseFilesInMemory({ ...other, [`cases/${name}`]: content }), 'cases', {
    today: '2026-11-25',
  });
  const errors = reading.problems.filter(({ severity }) => severity === 'error');
  expect(errors.length > 0).toBe(reading.practice.farms.length === 0);
  for (const problem of reading.problems) {
    // eslint-disable-next-line no-control-regex
    expect(formatProblem(problem)).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
    if (!problem.place) continue;
    const { line, column, endColumn } = problem.place;
    expect(line).toBeGreaterThan(0);
    expect(column).toBeGreaterThan(0);
    expect(endColumn ?? column + 1).toBeGreaterThan(column);
    expect(problem.excerpt).toBeDefined();
  }
}

it('any bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => givesRecordOrError(bytes)),
    { numRuns: 120 },
  );
});

it('any text as front matter', () => {
  const text = fc.string({ unit: 'grapheme', maxLength: 200 });
  fc.assert(
    fc.property(text, (inner) => givesRecordOrError(`---\n${inner}\n---\n`)),
    { numRuns: 600 },
  );
});

it('any text made of the signs YAML cares about', () => {
  const sign = fc.constantFrom(
    ...'{}[]:,-?!&*#|>%@`"\'\\ \t\n\r~=abtop0123.+_é',
    '- ',
    ': ',
    '\n  ',
    'top',
    'visits',
    '<<',
    '__proto__',
  );
  const text = fc.array(sign, { maxLength: 120 }).map((signs) => signs.join(''));
  fc.assert(
    fc.property(text, (inner) => givesRecordOrError(`---\n${inner}\n---\n`)),
    { numRuns: 1000 },
  );
});

const mutation = fc.record({
  at: fc.nat(),
  how: fc.constantFrom('delete', 'double', 'swap', 'indent', 'cut', 'insert', 'replace'),
  text: fc.string({ unit: 'grapheme', maxLength: 12 }),
});

function mutated(text: string, { at, how, text: other }: { at: number; how: string; text: string }): string {
  const lines = text.split('\n');
  const line = at % lines.length;
  const old = lines[line] ?? '';
  const column = at % (old.length + 1);
  if (how === 'delete') lines.splice(line, 1);
  if (how === 'double') lines.splice(line, 0, old);
  if (how === 'swap') lines.splice(line, 2, lines[line + 1] ?? '', old);
  if (how === 'indent') lines[line] = ` ${old}`;
  if (how === 'cut') lines[line] = old.slice(0, column);
  if (how === 'insert') lines[line] = old.slice(0, column) + other + old.slice(column);
  if (how === 'replace') lines[line] = old.slice(0, column) + other + old.slice(column + other.length);
  return lines.join('\n');
}

it('good files with lines deleted, doubled, swapped, cut and written over', () => {
  const text = fc.constantFrom(animalText, ...texts);
  const changes = fc.array(mutation, { minLength: 1, maxLength: 3 });
  fc.assert(
    fc.property(text, changes, (start, all) => {
      const changed = all.reduce(mutated, start);
      givesRecordOrError(changed);
      givesRecordOrError(changed, 'quernholt/farm.md');
    }),
    { numRuns: 120 },
  );
});

it('bytes flipped in a good file', () => {
  const bytes = new TextEncoder().encode(animalText);
  const flip = fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(flip, (flips) => {
      const changed = new Uint8Array(bytes);
      for (const [at, byte] of flips) changed[at] = byte;
      givesRecordOrError(changed);
    }),
    { numRuns: 600 },
  );
});

it('ends in time on text made to be slow', () => {
  const slow = [
    `---\n${'a: '.repeat(50_000)}\n---\n`,
    `---\n${'{a: '.repeat(50_000)}\n---\n`,
    `---\n${'- '.repeat(50_000)}a\n---\n`,
    `---\n${'? '.repeat(50_000)}a\n---\n`,
    `---\nnote: "${'\\'.repeat(99_999)}\n---\n`,
    `---\nnote: ${"'".repeat(100_000)}\n---\n`,
    `---\n${' '.repeat(200_000)}\n---\n`,
    `---\n${'a\n'.repeat(100_000)}---\n`,
    `---\nnote: ${'x '.repeat(100_000)}\n---\n`,
    `---\nnote: ${'x\t'.repeat(100_000)}: #\n---\n`,
    `---\n${'"a": '.repeat(20_000)}\n---\n`,
    `---\n${'!a '.repeat(50_000)}\n---\n`,
    `---\n${'&a '.repeat(50_000)}\n---\n`,
    `---\n${'# '.repeat(100_000)}\n---\n`,
    `---\n${'\t'.repeat(100_000)}a\n---\n`,
    `---\n${'[a, '.repeat(90)}${'b, '.repeat(50_000)}\n---\n`,
    '-'.repeat(1_000_000),
    `---\n${'1'.repeat(500_000)}: 2\n---\n`,
    `---\ntop: ${'1'.repeat(500_000)} mm\n---\n`,
    `---\n${Array.from({ length: 5000 }, (_, n) => `k${n}: ${n}`).join('\n')}\n---\n`,
  ];
  for (const text of slow) {
    const start = performance.now();
    givesRecordOrError(text);
    expect(performance.now() - start, text.slice(0, 24)).toBeLessThan(4000);
  }
}, 60_000);

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { canonicalText, sha256Of } from '../../src/ledger/canonical.js';
import {
  chained,
  type Draft,
  entryLine,
  beginning,
  type LedgerEntry,
} from '../../src/ledger/ledger-entry.js';
import { headOf, holdsHead, shortHead, readLedger } from '../../src/ledger/read-ledger.js';
import { animalText, farmText } from '../casefile/generated-cases.js';
import { ledgerOf, sealedFiles } from './sealed-files.js';

const text = ledgerOf(
  sealedFiles({
    'cases/quernholt/farm.md': farmText,
    'cases/quernholt/2086.md': animalText.replace('First lifted', 'Zoë “lifted” \\u00fc'),
    'cases/quernholt/2087.md': animalText.replace('2086', '2087'),
  }),
);
const lines = text.trimEnd().split('\n');
const whole = readLedger(text);
const seed = 20261125;

test('an entry is the hash of its canonical form, and names the one before it', () => {
  expect(whole.faults).toEqual([]);
  let prev = beginning;
  for (const line of lines) {
    const { hash, ...body } = JSON.parse(line) as Record<string, unknown>;
    expect(body['prev']).toBe(prev);
    expect(hash).toBe(sha256Of(canonicalText(body)));
    expect(body['sha256']).toBe(sha256Of(canonicalText(body['content'])));
    prev = hash as string;
  }
});

test('canonical form: the order of keys and how a number is written are free, as RFC 8785 has it', () => {
  expect(canonicalText(JSON.parse('{"b":1.0,"a":[1e1,"\\u00e9"]}'))).toBe('{"a":[10,"é"],"b":1}');
  expect(canonicalText({ half: 'a\ud800b' })).toBe('{"half":"a\ufffdb"}');
  // FIPS 180-4, "abc".
  expect(sha256Of('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});

test('any byte changed is caught, but where the entries say the same', () => {
  let caught = 0;
  fc.assert(
    fc.property(fc.nat(text.length - 1), fc.integer({ min: 32, max: 126 }), (at, code) => {
      const changed = text.slice(0, at) + String.fromCharCode(code) + text.slice(at + 1);
      const { entries, faults } = readLedger(changed);
      if (faults.length === 0) expect(entries).toEqual(whole.entries);
      else caught += 1;
    }),
    { numRuns: 1000, seed },
  );
  expect(caught).toBeGreaterThan(950);
});

test('lines taken out, put in twice or in another order are caught', () => {
  for (const at of lines.keys()) {
    const without = readLedger(lines.toSpliced(at, 1).join('\n'));
    if (at < lines.length - 1) expect(without.faults.length, `without ${at}`).toBeGreaterThan(0);
    const twice = readLedger(lines.toSpliced(at, 0, lines[at]!).join('\n'));
    expect(twice.faults.length, `twice ${at}`).toBeGreaterThan(0);
    if (at > 0) {
      const swapped = lines.toSpliced(at - 1, 2, lines[at]!, lines[at - 1]!);
      expect(readLedger(swapped.join('\n')).faults.length, `swapped ${at}`).toBeGreaterThan(0);
    }
  }
});

test('a value changed and its hashes made anew is caught by the next entry; the whole chain made anew by a head', () => {
  const remade = (from: number): string => {
    let prev = (JSON.parse(lines[from]!) as { prev: string }).prev;
    return lines
      .map((line, at) => {
        if (at < from) return line;
        const { hash: _, ...body } = JSON.parse(line.replace('"outer"', '"inner"')) as Record<
          string,
          unknown
        >;
        const made = { ...body, sha256: sha256Of(canonicalText(body['content'])), prev };
        prev = sha256Of(canonicalText(made));
        return JSON.stringify({ ...made, hash: prev });
      })
      .join('\n');
  };
  const one = lines.with(2, remade(2).split('\n')[2]!).join('\n');
  expect(readLedger(one).faults.map(({ what }) => what)).toEqual(['not-behind']);
  const all = readLedger(remade(0));
  expect(all.faults).toEqual([]);
  expect(holdsHead(all, shortHead(headOf(whole)!))).toBeUndefined();
});

test('a tail cut off is caught by the head, printed with spaces or in capitals; a later chain still holds it', () => {
  const head = shortHead(headOf(whole)!);
  for (let kept = 0; kept < lines.length; kept += 1) {
    const cut = readLedger(lines.slice(0, kept).join('\n'));
    expect(cut.faults).toEqual([]);
    expect(holdsHead(cut, head)).toBeUndefined();
    if (kept > 0) expect(holdsHead(whole, shortHead(headOf(cut)!))?.entries).toBe(kept);
  }
  expect(holdsHead(whole, head.toUpperCase().replaceAll(' ', ''))).toEqual(headOf(whole));
  expect(() => holdsHead(whole, 'abcd')).toThrow(RangeError);
});

test('line ends of another system, a byte order mark and spaces change nothing; nothing at all is an empty chain', () => {
  const odd = `\ufeff${lines.map((line) => line.replace('{"', ' { "')).join('\r\n\r\n')}`;
  expect(readLedger(odd)).toEqual(whole);
  expect(readLedger('')).toEqual({ entries: [], faults: [] });
});

test('an entry that refers to none before it, or to one of another kind, is caught', () => {
  const visit = { sealed: '2026-02-10', kind: 'visit', on: '2026-02-10', content: {} } as const;
  const withdrawn = { sealed: '2026-02-10', kind: 'withdrawn', content: {} } as const;
  const faults = (...drafts: Draft[]) => {
    const entries: LedgerEntry[] = [];
    for (const draft of drafts) entries.push(chained(draft, entries.at(-1)));
    return readLedger(entries.map((entry) => `${entryLine(entry)}\n`).join('')).faults;
  };
  expect(faults(visit, { ...visit, of: 1 }, { ...withdrawn, withdraws: [2] })).toEqual([]);
  const wrong = [{ line: 2, what: 'refers-wrong', values: { number: 2 } }];
  expect(faults(visit, { ...visit, kind: 'picture', of: 1 })).toEqual(wrong);
  expect(faults({ ...visit, kind: 'plan' }, { ...visit, kind: 'picture', visit: 1 })).toEqual(wrong);
  expect(faults(visit, { ...withdrawn, withdraws: [2] })).toEqual(wrong);
  expect(faults(visit, { ...visit, names: [3] })).toEqual(wrong);
});

test('each fault has its line; what an edited entry is followed by is not blamed', () => {
  const edited = lines.with(1, lines[1]!.replace('"sealed":"2026-02-10"', '"sealed":"2026-02-09"'));
  expect(edited[1]).not.toBe(lines[1]);
  expect(readLedger(edited.join('\n')).faults).toEqual([{ line: 2, what: 'edited', values: { number: 2 } }]);
  const twice = readLedger([lines[0]!, lines[0]!].join('\n'));
  expect(twice.faults).toEqual([{ line: 2, what: 'not-behind', values: { number: 1, before: 1 } }]);
  const told = (line: string) => readLedger(line).faults.map(({ what, values }) => [what, values]);
  expect(told('{"ledger":2}')).toEqual([['unknown-version', { version: 2 }]]);
  expect(told('{"ledger":0}')).toEqual([['not-an-entry', { at: 'ledger' }]]);
  expect(told('{"ledger":"2"}')).toEqual([['not-an-entry', { at: 'ledger' }]]);
  for (const shape of ['null', '7', '"a"']) expect(told(shape)[0]![0]).toBe('not-an-entry');
  expect(told('{')).toEqual([['not-json', {}]]);
});

test('after the fiftieth fault the rest is not looked at, and that is said once', () => {
  const said = (count: number) => readLedger('x\n'.repeat(count)).faults;
  expect(said(50).every(({ what }) => what === 'not-json')).toBe(true);
  expect(said(50)).toHaveLength(50);
  for (const count of [51, 60]) {
    expect(said(count)).toHaveLength(51);
    expect(said(count).at(-1)).toEqual({ line: 51, what: 'not-looked-at', values: {} });
  }
});

test('a head has 16 to 64 digits; its first sixteen are printed in fours', () => {
  const { hash } = headOf(whole)!;
  for (const digits of [16, 17, 64]) expect(holdsHead(whole, hash.slice(0, digits))).toEqual(headOf(whole));
  for (const wrong of [hash.slice(0, 15), `${hash}0`, `${hash.slice(0, 15)}g`])
    expect(() => holdsHead(whole, wrong)).toThrow(RangeError);
  expect(shortHead({ entries: 1, hash: '0123456789abcdef0123' })).toBe('0123 4567 89ab cdef');
  expect(headOf({ entries: [], faults: [] })).toBeUndefined();
});

test('no text makes it throw', () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.json(), fc.constantFrom(...lines)), fc.string(), (a, b) => {
      expect(() => readLedger(`${a}\n${b}`)).not.toThrow();
    }),
    { numRuns: 300, seed },
  );
});

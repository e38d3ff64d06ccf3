import { describe, expect, it } from 'vitest';
import { readRecords } from '../../src/exchange/read-records.js';
import { recordsAsJson } from '../../src/exchange/records-json.js';
import { formatProblem } from '../../src/problem/format-problem.js';
import { practiceIn } from './practice-in.js';

const good = recordsAsJson(practiceIn('tests/casefiles/good/every-key'));

/** What is said of the records with one thing in them changed. */
function said(from: string | RegExp, to: string): string {
  const text = good.replace(from, to);
  expect(text).not.toBe(good);
  const read = readRecords(text, 'r.json');
  if (read.outcome === 'records') throw new Error('taken');
  return read.outcome === 'not-ours' ? read.message : read.problems.map(formatProblem).join('\n');
}

/** The line in the changed text that holds this. */
const lineOf = (text: string): number => good.slice(0, good.indexOf(text)).split('\n').length;

describe('records that are not as they were written', () => {
  it('an unknown key is reported with its place and the nearest one', () => {
    const line = lineOf('"gait-by": "Tam');
    expect(said('"gait-by": "Tam', '"gait-buy": "Tam')).toContain(`r.json:${line}:`);
    expect(said('"gait-by": "Tam', '"gait-buy": "Tam')).toMatch(
      /key\/unknown: `gait-buy` is not a key of a visit: did you mean `gait-by`\?/,
    );
  });

  it('a text for a number, a number for a text, a wrong word: none is taken for what it might be', () => {
    expect(said('"weight": 655', '"weight": "655"')).toContain('value/quoted-number');
    expect(said('"animal": "2086"', '"animal": 2086')).toContain('value/not-text');
    expect(said('"kind": "missed"', '"kind": "absent"')).toContain('value/unknown-word');
    expect(said('"date": "2026-01-13"', '"date": "2026-02-30"')).toContain('value/no-such-day');
  });

  it('all troubles are reported together, in the order they stand', () => {
    const all = said(/"weight": 655([\s\S]*)"kind": "missed"/, '"weight": "655"$1"kind": "absent"');
    expect(all.match(/^r\.json:\d+:\d+: error/gm)).toHaveLength(2);
    expect(all.indexOf('weight')).toBeLessThan(all.indexOf('absent'));
  });

  it('a missing key is reported where its group stands', () => {
    expect(said('"lesions": {', '"marks": {')).toContain('a name appears twice');
    expect(said('"lesions": {', '"lezions": {')).toContain('has no `lesions`, expected one');
    expect(said('"slug": "2086",', '')).toContain('has no `slug`');
  });

  it('a key of the envelope nobody knows is refused, and one that means something to the language', () => {
    expect(said('"version": 1,', '"version": 1, "extra": 1,')).toContain('extra');
    expect(said('"old": {', '"constructor": {')).toContain('key/reserved');
    expect(said('"old": {', '"__proto__": {')).toMatch(/key\/(?:reserved|name-form)/);
  });

  it('a name written twice is refused with its place: the parser would keep the last in silence', () => {
    const line = lineOf('"weight": 655');
    expect(said('"weight": 655', '"weight": 655, "weight": 656')).toBe(
      `r.json:${line}:32: a name appears twice in one group, expected each once; take one of the two out`,
    );
  });

  it('a file cut short, empty, or no JSON is said to be so, with its place', () => {
    expect(readRecords(good.slice(0, 900), 'r.json')).toMatchObject({
      outcome: 'not-ours',
      message: expect.stringMatching(/^r\.json:\d+:\d+: the text is not JSON/) as unknown,
    });
    expect(said('"weight": 655', '"weight": six')).toMatch(
      new RegExp(`^r\\.json:${lineOf('"weight": 655')}:\\d+: the text is not JSON`),
    );
    for (const text of ['', '---\ncasefile: 1\n', '[', '"', 'null', '7', '[]', '{}', '{"growdown":"else"}'])
      expect(readRecords(text, 'r.json').outcome).toBe('not-ours');
  });

  it('records of a later version are said to be so, and nothing else is said of them', () => {
    expect(said('"version": 1', '"version": 2, "unknown": true')).toBe(
      'r.json is of version 2 of the records, and this program reads up to 1: read it with the Growdown that wrote it, or a later one',
    );
    expect(said('"version": 1', '"version": 0')).toContain('version');
  });

  it('a quote before a colon inside a text counts for no name', () => {
    const text = good.replace('"kicks left; needs two"', String.raw`"she \": kicks \\\" : so \\"`);
    expect(readRecords(text, 'r.json').outcome).toBe('records');
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { wordsOf } from '../../src/reference/words.js';
import { standingOrder } from '../../src/healing/standing.js';
import { noticeRules } from '../../src/reference/notices.js';
import { missingIds } from '../../src/schedule/missing-on-farm.js';
import { saySituation, type Situation } from './say-situation.js';

interface Row {
  readonly situation: string;
  readonly says: string;
  readonly given: Situation;
}

/** The written table: every sentence in it was read aloud once before it was kept. */
const rows = JSON.parse(readFileSync(new URL('situations.json', import.meta.url), 'utf8')) as readonly Row[];
const british = wordsOf('en-GB');

describe('every situation reads as written', () => {
  it.each(rows)('$situation', ({ given, says }) => {
    expect(saySituation(british, given)).toBe(says);
  });
});

it('the table is long enough, and no situation is in it twice', () => {
  expect(rows.length).toBeGreaterThanOrEqual(60);
  expect(new Set(rows.map(({ situation }) => situation)).size).toBe(rows.length);
});

it('every standing has its situation', () => {
  const told = new Set(rows.map(({ given }) => (given.of === 'lesion' ? given.standing : undefined)));
  expect(standingOrder.filter((word) => !told.has(word))).toEqual([]);
});

describe('what no sentence may say', () => {
  const sentences = rows.map(({ says }) => says);
  it.each([
    ['a promise', /\bwill\b|\bshall\b|guarantee/i],
    ['an exclamation', /!/],
    ['praise or blame', /\bgood\b|\bbad\b|excellent|unfortunately|fault of|neglect/i],
    ['a verdict on her keeping', /\bcull her\b|\bkeep her in the herd\b/i],
    ['better, of a walk on the block', /block[^.]*\bbetter\b/i],
    ['a hedge on a hedge', /may perhaps|might possibly|should probably|may possibly/i],
    ['a gap left unfilled', /\{|\}|undefined|NaN/],
    ['two stops or two spaces', /\.\.|\s{2}/],
  ])('%s', (_, never) => {
    expect(sentences.filter((sentence) => never.test(sentence))).toEqual([]);
  });

  it('a date of a wall is never without its other end or its limit', () => {
    const dates = rows.filter(({ given, says }) => given.of === 'date' && /\d{4}/.test(says));
    expect(dates.length).toBeGreaterThan(6);
    for (const { says } of dates) expect(says).toMatch(/between .* and |by \d|five years/);
  });
});

describe('American English', () => {
  const american = wordsOf('en-US');
  it('says the same things with its own words and dates', () => {
    const says = rows.map(({ given }) => saySituation(american, given)).join('\n');
    expect(says).not.toMatch(/coronet\b|calliper|anaesthe|bandage/);
    expect(says).toMatch(/June 2, 2026/);
    expect(says).not.toMatch(/\b2 June\b/);
  });
});

describe('nothing is left without words', () => {
  it.each(noticeRules.map(({ id }) => id))('notice %s has a name and a reason', (id) => {
    expect(british.has(`notice.rule.${id}.title`)).toBe(true);
    expect(british.has(`notice.rule.${id}.reason`)).toBe(true);
  });
  it.each([...missingIds])('%s says how to close it', (id) => {
    expect(british.has(`missing.${id.slice(4)}.close`)).toBe(true);
  });
});

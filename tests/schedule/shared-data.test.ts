import { expect, it } from 'vitest';
import { defaultIntervals } from '../../src/reference/intervals.js';
import { noticeRuleIds, noticeRules, urgencies, urgencyOf } from '../../src/reference/notices.js';
import { standingWords } from '../../src/reference/standing-words.js';
import { wordsOf } from '../../src/reference/words.js';

const standing = Object.entries(standingWords).flatMap(([group, some]) =>
  group === 'farmSigns' ? [] : some.flatMap((word) => (typeof word === 'string' ? [] : [word])),
);
it('what is overdue is never before it is due', () => {
  for (const [name, { value }] of Object.entries(defaultIntervals)) {
    const due = name.endsWith('-overdue') ? name.slice(0, -'-overdue'.length) : undefined;
    const before = Object.entries(defaultIntervals).find(([other]) => other === due)?.[1];
    if (before) expect(value).toBeGreaterThan(before.value);
  }
});

it('the rules are each once, most urgent first', () => {
  expect(noticeRules.map(({ id }) => id)).toEqual([...noticeRuleIds]);
  const ranks = noticeRules.map(({ urgency }) => urgencies.indexOf(urgency));
  expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
});

it('every standing word has its words in both languages', () => {
  const keys = standing.map(({ key }) => `caution.${key}`);
  expect(keys.length).toBeGreaterThan(12);
  for (const language of ['en-GB', 'en-US'] as const)
    expect(keys.filter((key) => !wordsOf(language).has(key))).toEqual([]);
});

it('the signs a farm is told to watch for are rules, most urgent first, each once', () => {
  const { farmSigns } = standingWords;
  expect(new Set(farmSigns).size).toBe(farmSigns.length);
  // What is asked at a visit is worked out from her own record, and is on her page alone.
  expect(farmSigns.filter((id) => urgencyOf(id) === 'notice')).toEqual([]);
  const ranks = farmSigns.map((id) => noticeRuleIds.indexOf(id));
  expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
});

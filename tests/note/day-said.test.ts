import { expect, test } from 'vitest';
import { daySaid } from '../../src/note/day-said.js';
import { tokensOf } from '../../src/note/token.js';

const from = '2026-06-16';
const said = (text: string, pick: 'latest' | 'next' = 'latest', today: string | undefined = from) =>
  daySaid(tokensOf(text), 0, { pick, from, today })?.days;

test.each([
  ['2026-03-03', ['2026-03-03']],
  ['3 March 2026', ['2026-03-03']],
  ['3 March', ['2026-03-03']],
  ['March 3', ['2026-03-03']],
  ['march 3rd, 2026', ['2026-03-03']],
  ['the 3rd of March', ['2026-03-03']],
  ['third of march twenty twenty six', ['2026-03-03']],
  ['twenty first of march', ['2026-03-21']],
  ['3/3/26', ['2026-03-03']],
  ['3/4/26', ['2026-04-03', '2026-03-04']],
  ['03.04.2026', ['2026-04-03', '2026-03-04']],
  ['13/4', ['2026-04-13']],
  ['4/13', ['2026-04-13']],
  ['17 June', ['2025-06-17']],
  ['16 June', ['2026-06-16']],
  ['29 Feb', ['2024-02-29']],
  ['30 Feb', []],
  ['31/4/26', []],
  ['today', ['2026-06-16']],
  ['yesterday', ['2026-06-15']],
] as const)('%j', (text, days) => {
  expect(said(text)).toEqual(days);
});

test('looking ahead, the first such day', () => {
  expect(said('17 June', 'next')).toEqual(['2026-06-17']);
  expect(said('3 March', 'next')).toEqual(['2027-03-03']);
});

test('a number of four figures behind a day is a year only where it lies near', () => {
  expect(daySaid(tokensOf('3 March 2086'), 0, { pick: 'latest', from, today: from })).toEqual({ days: ['2026-03-03'], next: 2 });
  expect(daySaid(tokensOf('3 March 2027'), 0, { pick: 'latest', from, today: from })?.next).toBe(2);
}); // prettier-ignore

test('yesterday is not certain where it is not known what it is counted from', () => {
  expect(daySaid(tokensOf('yesterday'), 0, { pick: 'latest', from, today: undefined })?.days).toEqual([]);
});

test.each(['March', 'top 21', '21', '3', '18.5'])('%j is no day', (text) => {
  expect(said(text)).toBeUndefined();
});

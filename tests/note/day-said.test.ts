import { expect, test } from 'vitest';
import { afterSpan, type DateOrder, daysMeant, daySaid, spanSaid } from '../../src/note/day-said.js';
import { tokensOf } from '../../src/note/token.js';

const from = '2026-06-16';
const said = (text: string, pick: 'latest' | 'next' = 'latest') => {
  const day = daySaid(tokensOf(text), 0);
  return day && daysMeant(day, { pick, from, today: from, order: { first: 'day-first', sure: false } });
};

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
  ['16 6 26', ['2026-06-16']],
  ['Tues 9th', ['2026-06-09']],
  ['Monday 15 June', ['2026-06-15']],
  ['Mon 15/6', ['2026-06-15']],
  ['the 9th', ['2026-06-09']],
  ['Friday', ['2026-06-12']],
  // 16 June 2026 is a Tuesday: today's, or a week ago.
  ['Tuesday', ['2026-06-16', '2026-06-09']],
  ['mid May', ['2026-05-15']],
  ['10.11.', ['2025-11-10', '2025-10-11']],
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

test('of figures in either order the farm’s own comes first, and the weekday settles it', () => {
  const day = daySaid(tokensOf('3/4/26'), 0)!;
  const order = { first: 'month-first', sure: false } as const;
  expect(daysMeant(day, { pick: 'latest', from, today: from, order })[0]).toBe('2026-03-04');
  expect(said('Wed 4/3/26')).toEqual(['2026-03-04']);
});

test('an order that is sure leaves one day, but where it makes no date', () => {
  const sure = (text: string, first: DateOrder['first']) =>
    daysMeant(daySaid(tokensOf(text), 0)!, {
      pick: 'latest',
      from,
      today: from,
      order: { first, sure: true },
    });
  expect(sure('3/4/26', 'day-first')).toEqual(['2026-04-03']);
  expect(sure('3/4/26', 'month-first')).toEqual(['2026-03-04']);
  expect(sure('13/4/26', 'month-first')).toEqual(['2026-04-13']);
  // A day to come is not turned round to fit.
  expect(sure('3/12/26', 'day-first')).toEqual(['2026-12-03']);
});

test('a number of four figures behind a day is a year only where it may be one', () => {
  expect(daySaid(tokensOf('3 March 2086'), 0)?.next).toBe(2);
  expect(daySaid(tokensOf('3 March 2027'), 0)?.next).toBe(3);
});

test.each([
  ['6/52', '2026-07-28'],
  ['a fortnight', '2026-06-30'],
  ['3 wks', '2026-07-07'],
  ['two months', '2026-08-16'],
  ['ten days', '2026-06-26'],
] as const)('%j on', (text, day) => {
  expect(afterSpan(from, spanSaid(tokensOf(text), 0)!)).toBe(day);
});

test('a span no calendar holds has no end, and a month ends with its last day', () => {
  expect(afterSpan(from, spanSaid(tokensOf('100000000 weeks'), 0)!)).toBeUndefined();
  expect(afterSpan('2026-01-31', { days: 0, months: 1 })).toBe('2026-02-28');
});

test.each(['March', 'top 21', '21', '3', '18.5'])('%j is no day', (text) => {
  expect(said(text)).toBeUndefined();
});

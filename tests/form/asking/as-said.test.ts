import { expect, test } from 'vitest';
import { speechOn } from '../../../src/form/asking/as-said.js';
import { claws, feet, fixtureEvents, lesionCodes, tools } from '../../../src/record/words.js';

// A Tuesday.
const { days, words, number } = speechOn('2026-06-16');

test.each([
  ['today', '2026-06-16'],
  ['yesterday', '2026-06-15'],
  ['Monday', '2026-06-15'],
  ['last Tuesday', '2026-06-09'],
  ['14 June', '2026-06-14'],
  ['on 14 June', '2026-06-14'],
  ['14/6', '2026-06-14'],
  ['14.6', '2026-06-14'],
  ['14.6.2026', '2026-06-14'],
  ['2026-06-14', '2026-06-14'],
  ['3 days ago', '2026-06-13'],
  ['a week ago', '2026-06-09'],
  ['two months ago', '2026-04-16'],
  ['the 3rd', '2026-06-03'],
])('a day that lies behind: %s', (text, day) => {
  expect(days(text, '2026-06-16', false)).toEqual([day]);
});

test.each([
  ['Tuesday', '2026-06-23'],
  ['in 4 weeks', '2026-07-14'],
  ['a fortnight', '2026-06-30'],
  ['6/52', '2026-07-28'],
  ['14 July', '2026-07-14'],
  ['tomorrow', '2026-06-17'],
  ['Friday week', '2026-06-26'],
  ['3 January', '2027-01-03'],
])('a day that lies ahead: %s', (text, day) => {
  expect(days(text, '2026-06-16', true)).toEqual([day]);
});

test('figures are in the order of business.md, where it has one', () => {
  const inFigures = (dates: 'day-first' | 'month-first' | undefined): readonly string[] =>
    speechOn('2026-06-16', () => dates).days('3/4', '2026-06-16', false);
  expect(inFigures('month-first')).toEqual(['2026-03-04']);
  expect(inFigures('day-first')).toEqual(['2026-04-03']);
  expect(inFigures(undefined)).toEqual(['2026-04-03', '2026-03-04']);
});

test('what may be two days is both, and what is none is none', () => {
  expect(days('3/4', '2026-06-16', false)).toEqual(['2026-04-03', '2026-03-04']);
  expect(days('Tuesday', '2026-06-16', false)).toEqual(['2026-06-16', '2026-06-09']);
  expect(days('next Friday', '2026-06-16', true)).toEqual(['2026-06-19', '2026-06-26']);
  for (const text of ['31 June', '40/40', 'mid June', 'soon', '14 June and more', 'in 100000000 weeks', ''])
    expect(days(text, '2026-06-16', true), text).toEqual([]);
});

test('trade words and codes alike; what fits several gives them all, a slip in a word none', () => {
  expect(words(lesionCodes, 'white line')).toEqual(['WL']);
  expect(words(lesionCodes, 'WLD')).toEqual(['WL']);
  expect(words(lesionCodes, 'Sole ulcer')).toEqual(['SU']);
  expect(words(lesionCodes, 'ulcer')).toEqual(['SU', 'BU', 'TU']);
  expect(words(claws, 'lateral')).toEqual(['outer']);
  expect(words(feet, 'left hind')).toEqual(['LH']);
  expect(words(feet, 'nh')).toEqual(['LH']);
  expect(words(fixtureEvents, 'off')).toEqual(['removed']);
  expect(words(tools, 'vernier')).toEqual(['calliper']);
  for (const text of ['latteral', 'left hind please', 'left', ''])
    expect(words([...claws, ...feet], text), text).toEqual([]);
});

test('a number in its unit', () => {
  expect(number('43 mm', 'mm')).toBe(43);
  expect(number('4.3cm', 'mm')).toBe(43);
  expect(number('1-3/4"', 'mm')).toBe(44.5);
  expect(number('655 kg', 'kg')).toBe(655);
  expect(number('forty three', 'mm')).toBe(43);
  for (const [text, unit] of [
    ['43 kg', 'mm'],
    ['43 mm', 'kg'],
    ['43 mm', undefined],
    ['3/4', 'mm'],
    ['about 43', 'mm'],
  ] as const)
    // prettier-ignore
    expect(number(text, unit), text).toBeUndefined();
});

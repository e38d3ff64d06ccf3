import { expect, test } from 'vitest';
import { emptyMemory, readMemory, writeMemory } from '../../src/round/calendar/calendar-memory.js';

const entry = { sequence: 2, stamp: '2026-06-09', day: '2026-06-18', due: '2026-06-18' };
const whole = {
  ...emptyMemory('Quillfen'),
  entries: { 'b/recheck': { ...entry, summary: 'b', description: '', place: '' } },
  gone: { z: 1, a: 4 },
};

test('what was written is read again, and written again as the same bytes, whatever the order it was held in', () => {
  const text = writeMemory(whole);
  expect(readMemory(text)).toEqual({ outcome: 'read', memory: whole });
  expect(writeMemory({ ...whole, gone: { a: 4, z: 1 } })).toBe(text);
});

test.each([
  ['half a file', writeMemory(whole).slice(0, 90), /not complete JSON/],
  ['an empty file', '', /not complete JSON/],
  ['a list', '[]', /all of it/],
  ['a number that is none', writeMemory(whole).replace('"sequence": 2', '"sequence": "2"'), /sequence/],
  ['a day that is none', writeMemory(whole).replace('"day": "2026-06-18"', '"day": "2026-06-31"'), /day/],
  ['a later form of it', writeMemory(whole).replace('"calendar": 1', '"calendar": 2'), /calendar/],
])('%s is said to be damaged, and where', (_, text, why) => {
  const read = readMemory(text);
  expect(read.outcome === 'damaged' && read.why).toMatch(why);
});

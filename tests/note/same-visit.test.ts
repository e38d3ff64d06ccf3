import { expect, test } from 'vitest';
import { beyondRecord } from '../../src/note/same-visit.js';
import type { Visit } from '../../src/record/visit.js';

const recorded: Visit = {
  date: '2026-06-15', by: 'Orla Venn', kind: 'recheck', gait: 1, found: { a: { state: 'open', top: 21 } },
  trimmed: ['LH', 'RH'], note: 'Quiet today. Ate well.',
}; // prettier-ignore

test.each([
  ['the same', recorded, []],
  ['less than the record has', { date: '2026-06-15', by: 'Orla Venn', kind: 'recheck', trimmed: ['LH'] }, []],
  ['its note taken up into a longer one', { ...recorded, note: 'Quiet  today.' }, []],
  ['an empty list', { ...recorded, blocks: [] }, []],
  ['another length', { ...recorded, found: { a: { state: 'open', top: 24 } } }, ['found.a.top']],
  ['more than the record has', { ...recorded, weight: 640 }, ['weight']],
  ['another foot', { ...recorded, trimmed: ['LH', 'LF'] }, ['trimmed']],
  ['another note', { ...recorded, note: 'Kicked.' }, ['note']],
] as const)('%s', (_, noted, paths) => {
  expect(beyondRecord(noted as Visit, recorded).map(({ path }) => path)).toEqual(paths);
});

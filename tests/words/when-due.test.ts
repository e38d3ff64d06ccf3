import { expect, test } from 'vitest';
import type { DueItem } from '../../src/schedule/due/due-item.js';
import { whenDue } from '../../src/words/compose-due.js';
import { dayInWords } from '../../src/words/day-and-place.js';
import { wordsOf } from '../../src/reference/words.js';

const today = '2026-06-16';
const words = wordsOf('en-GB');
const item = (more: Partial<DueItem>): DueItem => ({
  what: 'block-off',
  by: '2026-06-07',
  who: 'trimmer',
  basis: 'default',
  why: { key: 'due.why.block-off', values: {} },
  beforeNextVisit: false,
  nearCalving: false,
  standing: 'open',
  ...more,
});

test.each([
  ['late', { standing: 'overdue', overdueFrom: '2026-06-15' }, 'overdue since 7 June 2026'],
  ['its day over, and not late yet', { overdueFrom: '2026-06-20' }, 'due 7 June 2026'],
  ['nobody can be late with it', {}, 'since 7 June 2026'],
  ['still to come', { by: '2026-06-20' }, 'due 20 June 2026'],
  ['a task kept up', { what: 'farm-task', task: 'straw pen', by: '2026-06-20' }, 'until 20 June 2026'],
  ['a task done once', { what: 'farm-task', task: 'wrap off', by: '2026-06-20' }, 'due 20 June 2026'],
  ['a task that ran out', { what: 'farm-task-done', task: 'straw pen' }, 'since 7 June 2026'],
] as const)('%s', (_, more, says) => {
  const one = item(more);
  expect(whenDue(words, one, today, dayInWords(words, one.by))).toBe(says);
});

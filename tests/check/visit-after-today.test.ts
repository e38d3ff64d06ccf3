import { expect, it } from 'vitest';
import { findingsOf } from './findings-of.js';

const later = `
  - { date: 2026-02-03, by: Orla Venn, kind: recheck }`;

it.each([
  ['its recheck', 'kind: first, recheck: 2026-02-03', ''],
  ['the visits after it', 'kind: first', later],
  ['a course that ended', 'kind: first, products: [{ product: "x", until: 2026-01-09 }]', ''],
  ['the farm’s task', 'kind: first, ask-farm: [{ what: wrap off, by: 2026-01-09 }]', ''],
])('a visit dated after today is reported once, whatever of %s', (_, keys, after) => {
  expect(findingsOf(`visits:\n  - { date: 2036-01-06, by: Orla Venn, ${keys} }${after}`)).toEqual([
    'error visit-after-today',
  ]);
});

it('does not lie outside episodes that are over', () => {
  expect(
    findingsOf(`
episodes: [{ lame-since: 2026-01-02, ended: 2026-03-20, result: culled }]
visits: [{ date: 2036-01-06, by: Orla Venn, kind: recheck }]`),
  ).toEqual(['error visit-after-today']);
});

it('keeps what is wrong by itself: two visits out of order before today, a correction after today', () => {
  const amended = 'amended: [{ date: 2036-02-01, by: Orla Venn, why: "x" }]';
  expect(
    findingsOf(`visits:
  - { date: 2026-03-03, by: Orla Venn, kind: first }
  - { date: 2026-02-03, by: Orla Venn, kind: recheck }
  - { date: 2036-01-06, by: Orla Venn, kind: recheck, ${amended} }`),
  ).toEqual(['error visit-after-today', 'error visits-out-of-order', 'error amended-after-today']);
});

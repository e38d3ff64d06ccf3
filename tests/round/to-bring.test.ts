import { expect, test } from 'vitest';
import { bringTogether, toBring } from '../../src/round/to-bring.js';
import { farmOf } from './invented-farm.js';

/** A cow visited three times, with what was put on at each. */
function cow(number: string, ...visits: readonly string[]): Record<string, string> {
  const days = ['2026-04-01', '2026-05-01', '2026-06-01'];
  return {
    [number]: `---
casefile: 1
animal: "${number}"
lesions:
  a: { code: SU, foot: LH, claw: outer }
visits:
${visits
  .map(
    (keys, at) => `  - date: ${days[at]}
    by: Orla Venn
    kind: ${at === 0 ? 'first' : 'recheck'}
    found: { a: { state: open } }
${keys}`,
  )
  .join('')}---
`,
  };
}

const block = (event: string, more = '') =>
  `    blocks: [{ foot: LH, claw: inner, event: ${event}${more} }]\n`;
const wrap = (event: string) => `    wraps: [{ foot: LH, event: ${event} }]\n`;
const bring = (animals: Record<string, string>) => toBring(farmOf(animals)('2026-06-16').cases, '2026-06-16');

test('a block that is on, of its material', () => {
  expect(bring(cow('1', block('fitted', ', material: plastic')))).toEqual({
    blocks: [{ material: 'plastic', count: 1 }],
    wraps: 0,
  });
});

test('a block whose material was not written takes the one last used on her; without any it is said', () => {
  const before = block('fitted', ', material: rubber');
  const again = cow('1', before, block('removed'), block('fitted'));
  expect(bring(again).blocks).toEqual([{ material: 'rubber', count: 1 }]);
  expect(bring(cow('1', block('fitted'))).blocks).toEqual([{ material: 'not-written', count: 1 }]);
});

test('one that was lost may be wanted again; one taken off is not', () => {
  const wood = block('fitted', ', material: wood');
  expect(bring(cow('1', wood, block('lost'))).blocks).toEqual([{ material: 'wood', count: 1 }]);
  expect(bring(cow('1', wood, block('removed'))).blocks).toEqual([]);
  expect(bring(cow('1', wood, block('lost'), wood)).blocks).toEqual([{ material: 'wood', count: 1 }]);
});

test('a wrap that is on, or was put on at the last lift, once a foot', () => {
  expect(bring(cow('1', wrap('fitted'))).wraps).toBe(1);
  expect(bring(cow('1', wrap('fitted'), wrap('removed'))).wraps).toBe(0);
  const off = `${wrap('fitted')}    farm-did: [{ what: wrap off, on: 2026-04-01 }]\n`;
  expect(bring(cow('1', off)).wraps).toBe(1);
});

test('several animals and farms add up, in the order of the word list', () => {
  const two = bring({
    ...cow('1', block('fitted', ', material: plastic')),
    ...cow('2', block('fitted', ', material: wood')),
  });
  expect(bringTogether([two, two, { blocks: [], wraps: 3 }])).toEqual({
    blocks: [
      { material: 'wood', count: 2 },
      { material: 'plastic', count: 2 },
    ],
    wraps: 3,
  });
});

import { expect, test } from 'vitest';
import type { Found, Visit } from '../../src/record/visit.js';
import { animalWith, gapOf, growthOf, kindsOf, top, visit } from './invented-animal.js';

// Ruler, heel, 61 days from 20 mm: expected 32.0246, sd 4.195 (tests/hand-worked). So z = −2 at 23.63, −3 at 19.44,
// +3 at 44.61; and "above" 20 means below 20 − 2·√8 = 14.34.
const after61 = (mm: number, more: Found = {}) =>
  gapOf(animalWith([visit('2026-01-01', { a: top(20) }), visit('2026-03-03', { a: top(mm, more) })]))
    .readings[1]!;

test.each([
  ['more wall came off', 10, { 'opened-further': true }, 'opened-further'],
  ['opened further is asked before ran up', 10, { 'opened-further': true, 'ran-up': true }, 'opened-further'],
  ['the visit says it ran up, though the length would fit', 31, { 'ran-up': true }, 'ran-up'],
  ['said to have run up, to the coronet', 0, { 'ran-up': true }, 'ran-up'],
  ['at the coronet', 0, {}, 'at-coronet'],
  ['far too high, above the reading before', 14, {}, 'ran-up'],
  ['far too high, no higher than before as far as a ruler tells', 15, {}, 'held'],
  ['just below −3', 19.4, {}, 'held'],
  ['just above −3', 19.5, {}, 'doubtful'],
  ['just below −2', 23.6, {}, 'doubtful'],
  ['just above −2', 23.7, {}, 'grew'],
  ['as expected', 32, {}, 'grew'],
  ['just below +3', 44.6, {}, 'grew'],
  ['just above +3', 44.7, {}, 'lower-than-growth'],
  ['top not found', 32, { 'top-found': 'higher' }, 'not-reached'],
] as const)('%s: %d mm', (_, mm, more, kind) => {
  expect(after61(mm, more).kind).toBe(kind);
});

test('no size of a run-up is stated where the top is not above what growth would bring', () => {
  expect(after61(33, { 'ran-up': true })).toMatchObject({ kind: 'ran-up' });
  expect(after61(33, { 'ran-up': true }).ranUpMm).toBeUndefined();
  expect(after61(14).ranUpMm).toBeCloseTo(32.0246 - 14, 3);
  expect(after61(14, { 'opened-further': true }).ranUpMm).toBeUndefined();
});

// 28 days from 20 mm: expected 25.52, sd 3.194; −2 at 19.13, −3 at 15.94. 38 days: 27.49, sd 3.449; −2 at 20.59, −3 at 17.14.
test('a doubtful reading teaches nothing, and the next as expected drops it', () => {
  const visits = [
    visit('2026-01-01', { a: top(20) }),
    visit('2026-01-29', { a: top(17) }),
    visit('2026-02-08', { a: top(27) }),
  ];
  const without = gapOf(animalWith([visits[0]!, visits[2]!]));
  const gap = gapOf(animalWith(visits));
  expect(gap.readings.map(({ kind, unused }) => [kind, unused])).toEqual([
    ['first', false],
    ['doubtful', true],
    ['grew', false],
  ]);
  expect(gap.readings[2]!.expectedMm).toBe(without.readings[1]!.expectedMm);
  expect(gap.forecast).toEqual(without.forecast);
});

test('a second reading too high: held from the pending one on, which then counts', () => {
  const gap = gapOf(
    animalWith([
      visit('2026-01-01', { a: top(20) }),
      visit('2026-01-29', { a: top(17) }),
      visit('2026-02-08', { a: top(19) }),
    ]),
  );
  expect(gap.readings.map(({ kind, unused }) => [kind, unused])).toEqual([
    ['first', false],
    ['doubtful', false],
    ['held', false],
  ]);
  expect(gap.forecast).toMatchObject({ outcome: 'none', why: 'held' });
});

// By calliper, 5 days from 12 mm: expected 12.99, sd 1.456; −2 at 10.07, −3 at 8.62; above 12 means below 9.17.
// 10 days: 13.97, sd 1.535; −2 at 10.90, −3 at 9.37; above the pending 9 means below 6.17.
test('a second reading too high after one that was above: ran up, though it is itself not above the pending one', () => {
  const animal = animalWith([
    visit('2026-01-01', { a: top(12, { tool: 'calliper' }) }),
    visit('2026-01-06', { a: top(9, { tool: 'calliper' }) }),
    visit('2026-01-11', { a: top(10, { tool: 'calliper' }) }),
  ]);
  const [, pending, confirmed] = gapOf(animal).readings;
  expect(pending!.kind).toBe('doubtful');
  expect(confirmed!.z).toBeLessThan(-2);
  expect(confirmed!.z).toBeGreaterThan(-3);
  expect(confirmed!.kind).toBe('ran-up');
  expect(pending!.unused).toBe(false);
});

test('after a top that was not found the next reading starts anew and is shown as first', () => {
  const animal = animalWith([
    visit('2026-01-01', { a: top(20) }),
    visit('2026-02-01', { a: { state: 'open', 'top-found': 'higher', tool: 'ruler' } }),
    visit('2026-03-01', { a: top(6) }, { by: 'Fenn Arkwell' }),
  ]);
  expect(kindsOf(animal)).toEqual(['first', 'not-reached', 'first']);
  // the first reader of the line stays Orla Venn: √(2² + 1.5²)
  expect(gapOf(animal).readings[2]!.sigmaMm).toBe(2.5);
});

test('a mark that is not where growth brings it is another notch or landmark', () => {
  const marks = { m: { foot: 'LH', claw: 'inner', line: 'dorsal' } as const };
  const kinds = [20, 15, 45].map((mm) => {
    const visits = [
      visit('2026-01-01', { m: { distance: 20 } }),
      visit('2026-03-03', { m: { distance: mm } }),
    ];
    return growthOfMark(visits);
  });
  expect(kinds).toEqual(['does-not-fit', 'does-not-fit', 'does-not-fit']);
  expect(
    growthOfMark([
      visit('2026-01-01', { m: { distance: 20 } }),
      visit('2026-03-03', { m: { distance: 31 } }),
    ]),
  ).toBe('grew');

  function growthOfMark(visits: Parameters<typeof animalWith>[0]): string {
    return growthOf(animalWith(visits, { lesions: {}, marks })).marks[0]!.readings[1]!.kind;
  }
});

// Ruler, 28 days from 33 mm: expected 38.52, sd 3.19, so 17 is far above; 17 < 33 − 2·√8 = 27.34.
const afterLooseHorn = (
  first: Partial<Visit>,
  firstFound: Found,
  second: Partial<Visit>,
  secondFound: Found,
) =>
  gapOf(
    animalWith([
      visit('2026-01-01', { a: top(33, firstFound) }, first),
      visit('2026-01-29', { a: top(17, secondFound) }, second),
    ]),
  );
const loose: Found = { signs: ['undermined', 'loose horn'] };

test.each<[string, Partial<Visit>, Found, Partial<Visit>, Found]>([
  ['the loose horn is not there any more', {}, loose, {}, {}],
  ['it is cut back today', {}, loose, { 'cut-back': ['a'] }, loose],
])('first read under loose horn, then further up: opened further, for %s', (_, ...story) => {
  const gap = afterLooseHorn(...story);
  expect(gap.readings[1]).toMatchObject({ kind: 'opened-further', unused: false });
  expect(gap.readings[1]!.lostMonths).toBeUndefined();
  expect(gap.forecast).toMatchObject({ outcome: 'range', from: '2026-01-29' });
});

test.each<[string, Partial<Visit>, Found, Partial<Visit>, Found]>([
  ['there was no loose horn', {}, {}, {}, {}],
  ['the loose horn was cut back before the first reading', { 'cut-back': ['a'] }, loose, {}, {}],
  ['another lesion was cut back', {}, loose, { 'cut-back': ['b'] }, loose],
  ['it still hangs over the gap', {}, loose, {}, loose],
])('further up is a run-up where %s', (_, ...story) => {
  expect(afterLooseHorn(...story).readings[1]!.kind).toBe('ran-up');
});

test('under loose horn, but not above what two readings can tell, or not at the first reading: as ever', () => {
  const kinds = (...tops: [number, Found][]) =>
    kindsOf(animalWith(tops.map(([mm, more], k) => visit(`2026-0${k + 1}-01`, { a: top(mm, more) }))));
  expect(kinds([33, loose], [38, {}])).toEqual(['first', 'grew']);
  expect(kinds([33, loose], [28, {}])).toEqual(['first', 'held']);
  expect(kinds([20, {}], [26, loose], [10, {}])).toEqual(['first', 'grew', 'ran-up']);
});

import { describe, expect, test } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import { catalogue } from '../casefile/catalogue.js';
import { doubtIds, doubtsOf, doubtsOfDraft } from '../../src/record/doubts.js';
import type { Found, Visit } from '../../src/record/visit.js';
import { gap, top, visit } from '../growth/invented-animal.js';

const today = '2026-11-25';
const cow = (visits: Visit[], more: Partial<Animal> = {}): Animal => ({
  casefile: 1,
  animal: '2086',
  calvings: ['2023-09-30'],
  lesions: { a: gap },
  visits,
  ...more,
});
const said = (animal: Animal, context: Partial<Parameters<typeof doubtsOf>[1]> = {}) =>
  doubtsOf(animal, { today, ...context }).map(({ path, message }) => `${path.join('.')}: ${message}`);

/** What is asked of a second finding four weeks after the first. */
const afterFirst = (first: number, second: Found) =>
  said(cow([visit('2026-09-01', { a: top(first, { wall: 43 }) }), visit('2026-09-29', { a: second })]));

describe('centimetres typed for millimetres', () => {
  const only = (found: Found, more: Partial<Animal> = {}) =>
    said(cow([visit('2026-09-01', { a: found })], more));

  test.each<[string, Found, Partial<Animal>, string[]]>([
    ['a wall below 15 mm', top(12, { wall: 4.4 }), {}, ['wall: 4.4 mm? 44 would fit.']],
    ['of unknown calvings', top(12, { wall: 9 }), { calvings: undefined }, ['wall: 9 mm? 90 would fit.']],
    [
      'that ten times would not mend',
      top(8, { wall: 14 }),
      {},
      ['wall: 14 mm? A grown cow’s wall is at least 15.'],
    ],
    ['just not below 15 mm', top(8, { wall: 15 }), {}, []],
    ['of a heifer that has not calved', top(8, { wall: 14 }), { calvings: [] }, []],
    ['of a claw that was lowered', top(8, { wall: 12, 'wall-lowered': true }), {}, []],
    [
      'top and wall below 10, with a decimal',
      top(1.8, { wall: 4.4 }),
      { calvings: [] },
      ['wall: 4.4 mm? 44 would fit.', 'top: 1.8 mm? 18 would fit.'],
    ],
    ['top and wall below 10 in whole numbers, of a heifer', top(2, { wall: 4 }), { calvings: [] }, []],
    ['a small top beside a wall as walls are', top(1.8, { wall: 43 }), {}, []],
    ['a top below 1 mm', top(0.8), {}, ['top: 0.8 mm? 8 would fit.']],
    ['a top of 1 mm', top(1), {}, []],
    ['a top at the coronet', top(0), {}, []],
  ])('%s', (_, found, more, expected) => {
    expect(only(found, more)).toEqual(expected.map((one) => `visits.0.found.a.${one}`));
  });

  // Ruler, 28 days from 33: no lower than 33 − 3·√8 = 24.5; no further down than the wall of 42 + 3·7 allows, and 8.5.
  test.each<[number, string[]]>([
    [4.1, ['4.1 mm? 41 would fit.']],
    [4, ['4 mm? 40 would fit.']],
    [2.4, []],
    [12, []],
    [33, []],
    [41, []],
  ])('%d after 33', (mm, expected) => {
    expect(afterFirst(33, top(mm))).toEqual(expected.map((one) => `visits.1.found.a.top: ${one}`));
  });

  test('somebody who says that it ran up, or was opened further, has answered', () => {
    expect(afterFirst(33, top(4.1, { 'ran-up': true }))).toEqual([]);
    expect(afterFirst(33, top(4.1, { 'opened-further': true }))).toEqual([]);
    expect(afterFirst(33, top(4.1, { 'ran-up': false }))).toHaveLength(1);
  });

  test('a top not reached is no length to doubt', () => {
    expect(afterFirst(33, top(4.1, { 'top-found': 'higher' }))).toEqual([]);
  });

  test('the earlier one is asked about where it alone was in centimetres; not where it was in whole millimetres', () => {
    expect(afterFirst(3.3, top(38))).toEqual(['visits.0.found.a.top: 3.3 mm? 33 would fit.']);
    expect(afterFirst(3, top(38))).toEqual([]);
  });

  test('what is doubted is nothing to compare with: the next reading is checked against the one before it', () => {
    const visits = [33, 4.1, 44].map((mm, k) => visit(`2026-0${k + 7}-01`, { a: top(mm) }));
    expect(said(cow(visits))).toEqual(['visits.1.found.a.top: 4.1 mm? 41 would fit.']);
  });

  test('a growth mark alike', () => {
    const marks = { m1: { foot: 'LH', claw: 'inner', line: 'dorsal' } as const };
    const read = [20, 2.5].map((mm, k) =>
      visit(`2026-0${k + 8}-01`, { m1: { distance: mm, tool: 'ruler' } }),
    );
    expect(said(cow(read, { marks }))).toEqual(['visits.1.found.m1.distance: 2.5 mm? 25 would fit.']);
  });
});

describe('a day in the wrong year', () => {
  const on = (more: Partial<Visit>) => said(cow([visit('2026-01-06', {}, more)]));

  test.each<[string, Partial<Visit>, string[]]>([
    [
      'a block',
      { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted', on: '2025-01-05' }] },
      ['blocks.0.on: 2025-01-05? 2026-01-05 would fit.'],
    ],
    [
      'a block fitted a week ago',
      { blocks: [{ foot: 'LH', claw: 'inner', event: 'already on', on: '2025-12-30' }] },
      [],
    ],
    [
      'a block half a year old',
      { blocks: [{ foot: 'LH', claw: 'inner', event: 'already on', on: '2025-07-06' }] },
      [],
    ],
    [
      'a question to the vet',
      { vet: { asked: '2025-01-06', why: 'heat' } },
      ['vet.asked: 2025-01-06? 2026-01-06 would fit.'],
    ],
    ['a recheck', { recheck: '2027-02-03' }, ['recheck: 2027-02-03? 2026-02-03 would fit.']],
    ['a recheck in four weeks', { recheck: '2026-02-03' }, []],
    [
      'a task of the farm',
      { 'ask-farm': [{ what: 'wrap off', by: '2027-01-08' }] },
      ['ask-farm.0.by: 2027-01-08? 2026-01-08 would fit.'],
    ],
    ['a leap day', { recheck: '2028-02-29' }, []],
  ])('%s', (_, more, expected) => {
    expect(on(more)).toEqual(expected.map((one) => `visits.0.${one}`));
  });

  test('of a leap day the 28th would fit', () => {
    expect(said(cow([visit('2027-02-01', {}, { recheck: '2028-02-29' })]))).toEqual([
      'visits.0.recheck: 2028-02-29? 2027-02-28 would fit.',
    ]);
  });

  test('a calving further ahead than a cow carries', () => {
    expect(said(cow([], { 'due-to-calve': '2027-12-01' }))).toEqual([
      'due-to-calve: 2027-12-01? 2026-12-01 would fit.',
    ]);
    expect(said(cow([], { 'due-to-calve': '2027-08-01' }))).toEqual([]);
    expect(said(cow([], { 'due-to-calve': '2026-06-01' }))).toEqual([]);
  });

  test('a visit a year before the next of its run, with none near it', () => {
    const visits = (...days: string[]) => days.map((day) => visit(day, {}));
    expect(said(cow(visits('2025-09-01', '2026-09-29')))).toEqual([
      'visits.0.date: 2025-09-01? 2026-09-01 would fit.',
    ]);
    expect(said(cow(visits('2025-08-04', '2025-09-01', '2026-09-29')))).toEqual([]);
    expect(said(cow(visits('2025-03-01', '2026-09-29')))).toEqual([]);
    const episodes = [{ ended: '2026-01-05', result: 'sound' as const }, {}];
    expect(said(cow(visits('2025-09-01', '2026-09-29'), { episodes }))).toEqual([]);
  });
});

describe('a visit that is just entered', () => {
  const entry = (date: string, ...before: string[]) =>
    doubtsOfDraft(cow(before.map((day) => visit(day, {}))), visit(date, {}), { today: '2026-01-10' }).map(
      ({ message }) => message,
    );

  test('its year: where it would be near today a year later, and no other visit is near it', () => {
    expect(entry('2025-01-09')).toEqual(['2025-01-09? 2026-01-09 would fit.']);
    expect(entry('2025-01-09', '2025-12-02')).toEqual(['2025-01-09? 2026-01-09 would fit.']);
    expect(entry('2025-01-09', '2024-12-20')).toEqual([]);
    expect(entry('2025-06-09')).toEqual([]);
    expect(entry('2026-01-10')).toEqual([]);
  });

  test('before her last visit', () => {
    expect(entry('2025-11-30', '2025-12-02')).toEqual(['2025-11-30? Her last visit is of 2025-12-02.']);
    expect(entry('2025-12-02', '2025-12-02')).toEqual([]);
    expect(entry('2025-12-03', '2025-12-02')).toEqual([]);
  });

  test('what was doubted before is not asked again, and an earlier reading is named by its day', () => {
    const animal = cow([visit('2026-09-01', { a: top(3.3) })]);
    const asked = (mm: number) =>
      doubtsOfDraft(animal, visit('2026-09-29', { a: top(mm) }), { today }).map(({ message, fits }) => [
        message,
        fits,
      ]);
    expect(asked(38)).toEqual([['2026-09-01: 3.3 mm? 33 would fit.', undefined]]);
    const doubted = cow([visit('2026-09-01', { a: top(0.8) })]);
    expect(doubtsOfDraft(doubted, visit('2026-09-29', { a: top(12) }), { today })).toEqual([]);
  });

  // 12 cannot follow 33 by growth; it can follow 8.
  const hers = cow([visit('2026-09-01', { a: top(33) })]);
  const other = (mm: number, more: Partial<Animal> = {}) =>
    cow([visit('2026-09-01', { a: top(mm) })], { animal: '2068', ...more });
  const mixedUp = (others: Animal[], found: Found = top(12)) =>
    doubtsOfDraft(hers, visit('2026-09-29', { a: found }), { today, others }).map(({ message }) => message);

  test('a reading that fits one other cow, at the lesion of that name and place', () => {
    expect(mixedUp([other(8)])).toEqual(['12 mm? It would fit lesion a of 2068.']);
    expect(mixedUp([other(30)])).toEqual([]);
    expect(mixedUp([other(8), other(9)])).toEqual([]);
    expect(mixedUp([other(8, { lesions: { a: { ...gap, foot: 'RF' } } })])).toEqual([]);
    expect(mixedUp([other(8)], top(12, { 'ran-up': true }))).toEqual([]);
    expect(mixedUp([other(8)], top(38))).toEqual([]);
    const healed = other(8);
    expect(
      mixedUp([{ ...healed, visits: [...healed.visits, visit('2026-09-10', { a: { state: 'healed' } })] }]),
    ).toEqual([]);
  });
});

test('every kind of doubt is in the catalogue, and nothing else is there as one of an entry', () => {
  expect(doubtIds.filter((id) => !catalogue().has(id))).toEqual([]);
  const ofEntry = [...catalogue().keys()].filter((id) => id.startsWith('entry/'));
  expect(ofEntry).toEqual(doubtIds.filter((id) => id.startsWith('entry/')).toSorted());
});

import {
  array,
  assert,
  boolean,
  constantFrom,
  integer,
  option,
  property,
  record as recordOf,
} from 'fast-check';
import { expect, test } from 'vitest';
import { rechecksOf } from '../../src/audit/facts/recheck.js';
import type { Animal } from '../../src/record/animal.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { StopWork } from '../../src/schedule/case-work.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, visit } from '../schedule/a-case.js';

const found = { a: { state: 'open' as const } };
const source = { file: 'x', placeOf: () => ({ line: 1, column: 1 }) };
const year = { from: '2026-01-01', to: '2026-12-31' };

function rechecks(animal: Animal, today = '2026-06-16', period = year, stop?: StopWork) {
  const record = { slug: '2041', animal, narrative: '', source };
  return rechecksOf({ record, ...(stop ? { stop } : {}) }, period, today);
}

const set = visit('2026-01-06', { kind: 'first', found, recheck: '2026-02-03' });

test.each([
  ['kept on the day', [visit('2026-02-03', { found })], 'kept'],
  ['kept before it', [visit('2026-01-20', { found })], 'kept'],
  ['lifted after it', [visit('2026-02-04', { found })], 'kept-late'],
  ['nobody came', [], 'missed'],
  ['only word from the farm', [visit('2026-02-03', { kind: 'report' })], 'missed'],
  ['her feet stayed down', [visit('2026-02-03', { feet: { LH: { lifted: false } } })], 'missed'],
  ['not presented', [visit('2026-02-03', { kind: 'missed', why: 'calving' })], 'missed'],
  ['moved by a report', [visit('2026-02-01', { kind: 'report', recheck: '2026-02-10' })], 'moved'],
  [
    'given another day when she was not presented: missed all the same',
    [visit('2026-02-03', { kind: 'missed', recheck: '2026-02-10' })],
    'missed',
  ],
  [
    'another day set only after this one had passed: missed',
    [visit('2026-02-04', { kind: 'report', recheck: '2026-02-10' })],
    'missed',
  ],
])('%s', (_, later, standing) => {
  expect(rechecks(cow([set, ...later]))[0]!.standing).toBe(standing);
});

test('a run over by the day leaves nothing to recheck; one over after it does', () => {
  const over = (ended: string) =>
    rechecks(cow([set], { episodes: [{ 'lame-since': '2026-01-04', ended, result: 'sold' }] }))[0]!.standing;
  expect(over('2026-02-02')).toBe('ended');
  expect(over('2026-02-03')).toBe('ended');
  expect(over('2026-02-04')).toBe('missed');
});

test('while work has stopped a recheck that fell due since is suspended; one due before was missed', () => {
  const since = (day: string) =>
    rechecks(cow([set]), '2026-06-16', year, { rule: 'blisters', since: day, animals: ['7'], people: [], suspended: 1 })[0]!.standing; // prettier-ignore
  expect(since('2026-02-03')).toBe('suspended');
  expect(since('2026-02-04')).toBe('missed');
});

test('a lift of a later lameness episode keeps none of an earlier one', () => {
  const animal = cow([set, visit('2026-03-01', { kind: 'first', found })], {
    episodes: [
      { 'lame-since': '2026-01-04', ended: '2026-02-20', result: 'sound' },
      { 'lame-since': '2026-02-25' },
    ],
  });
  expect(rechecks(animal)[0]!.standing).toBe('missed');
});

test('it is missed from the day after, and belongs to the period its day lies in', () => {
  expect(rechecks(cow([set]), '2026-02-03')[0]!.standing).toBe('not-due-yet');
  expect(rechecks(cow([set]), '2026-02-04')[0]!.standing).toBe('missed');
  expect(rechecks(cow([set]), '2026-06-16', { from: '2026-02-03', to: '2026-02-03' })).toHaveLength(1);
  expect(rechecks(cow([set]), '2026-06-16', { from: '2026-01-01', to: '2026-02-02' })).toEqual([]);
});

interface Step {
  readonly days: number;
  readonly kind: Visit['kind'];
  readonly lifts: boolean;
  readonly recheck: number | undefined;
}
const steps = array(
  recordOf({
    days: integer({ min: 1, max: 40 }),
    kind: constantFrom<Visit['kind']>('recheck', 'routine', 'report', 'missed'),
    lifts: boolean(),
    recheck: option(integer({ min: 1, max: 60 }), { nil: undefined }),
  }),
  { minLength: 1, maxLength: 9 },
);

function visitsOf(told: readonly Step[]): Visit[] {
  let day = '2026-01-01';
  return told.map(({ days, kind, lifts, recheck }) => {
    day = addDays(day, days);
    const foot = lifts ? { found } : { feet: { LH: { lifted: false } } };
    return visit(day, {
      kind,
      ...(kind === 'recheck' || kind === 'routine' ? foot : {}),
      ...(recheck === undefined ? {} : { recheck: addDays(day, recheck) }),
    });
  });
}

/** The same, read day by day as a person would with a calendar: what is written on the wall, and what becomes of it. */
function byCalendar(visits: readonly Visit[], today: string) {
  const wall: { due: string; standing: string }[] = [];
  for (const [at, { date, recheck }] of visits.entries()) {
    if (recheck === undefined || date > today) continue;
    let lifted: string | undefined;
    let moved = false;
    for (let day = date; day <= today && lifted === undefined; day = addDays(day, 1))
      for (const one of visits.filter((other, place) => place > at && other.date === day)) {
        const isWord = one.kind === 'report' || one.kind === 'missed';
        if (!isWord && one.found !== undefined) lifted ??= day;
        else if (one.kind === 'report' && one.recheck !== undefined && day <= recheck) moved = true;
      }
    // Seen by the day is kept, whatever was said of it before.
    const standing =
      lifted !== undefined && lifted <= recheck
        ? 'kept'
        : moved
          ? 'moved'
          : lifted !== undefined
            ? 'kept-late'
            : recheck < today
              ? 'missed'
              : 'not-due-yet';
    wall.push({ due: recheck, standing });
  }
  return wall;
}

test('every recheck is as a reading day by day has it', () => {
  assert(
    property(steps, integer({ min: 1, max: 400 }), (told, after) => {
      const visits = visitsOf(told);
      const today = addDays('2026-01-01', after);
      const period = { from: '2026-01-01', to: '2029-12-31' };
      const worked = rechecks(cow(visits), today, period);
      expect(worked.map(({ due, standing }) => ({ due, standing }))).toEqual(byCalendar(visits, today));
    }),
    { numRuns: 500 },
  );
});

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { ProductUse, Visit } from '../../src/record/visit.js';
import { ddStages, type Sign } from '../../src/record/words.js';
import { intervalsInForce } from '../../src/reference/intervals.js';
import { cow, quernholt, visit, workOut } from './a-case.js';

const today = '2026-06-10';
const day = '2026-06-02';
const due = (animal: Animal, what?: string, on = today, farm = quernholt) =>
  workOut(animal, on, farm).due.filter((item) => what === undefined || item.what === what);
const gap = (top?: number) => ({ a: { state: 'open' as const, ...(top === undefined ? {} : { top }) } });
const other = (code: 'SU' | 'DD' | 'CC', found: Visit['found']) =>
  cow([visit(day, { found })], { lesions: { a: { code, foot: 'RH' } } });

const read = (top: number) => ({
  a: { state: 'open' as const, top, wall: 60, tool: 'calliper' as const, 'top-found': 'seen' as const },
});

describe('rechecks', () => {
  it.each([
    [1, '2026-06-16', '2026-07-01'],
    [2, '2026-06-30', '2026-07-15'],
    [3, '2026-07-14', '2026-07-29'],
    [4, '2026-07-14', '2026-07-29'],
  ])('a wall gap after %i lifts: due %s, overdue from %s', (lifts, by, overdueFrom) => {
    const dates = ['2026-04-07', '2026-04-21', '2026-05-05', day].slice(-lifts);
    const animal = cow(dates.map((date, at) => visit(date, { found: gap(17 + 5 * at) })));
    expect(due(animal, 'recheck')).toMatchObject([
      { by, overdueFrom, basis: 'default', lesion: 'a', foot: 'LH' },
    ]);
  });

  it.each([
    ['an ulcer', other('SU', { a: { state: 'open', width: 9 } }), '2026-06-30'],
    ['a raw ulcer', other('SU', { a: { state: 'open', width: 9, signs: ['proud flesh'] } }), '2026-06-16'],
    ['dermatitis first active', other('DD', { a: { stage: 'M2' } }), '2026-06-09'],
    ['dermatitis quiet', other('DD', { a: { stage: 'M4' } }), '2026-07-14'],
    ['a claw out of shape', other('CC', { a: { state: 'present' } }), '2026-07-14'],
    ['a wall gap without a length', cow([visit(day, { found: gap() })]), '2026-07-14'],
  ])('%s', (_, animal, by) => {
    expect(due(animal, 'recheck').map((item) => item.by)).toEqual([by]);
  });

  it('dermatitis active again is looked at after four weeks', () => {
    const animal = cow(
      [visit('2026-05-26', { found: { a: { stage: 'M1' } } }), visit(day, { found: { a: { stage: 'M2' } } })],
      { lesions: { a: { code: 'DD', foot: 'RH' } } },
    );
    expect(due(animal, 'recheck')[0]?.by).toBe('2026-06-30');
  });

  it('a day the trimmer wrote wins, early or late, and a report may write it', () => {
    for (const recheck of ['2026-06-05', '2026-09-01'])
      expect(due(cow([visit(day, { found: gap(17), recheck })]), 'recheck')).toMatchObject([
        { by: recheck, basis: 'written' },
      ]);
    const byReport = cow([
      visit(day, { found: gap(17), recheck: '2026-06-16' }),
      visit('2026-06-04', { kind: 'report', recheck: '2026-06-09' }),
    ]);
    expect(due(byReport, 'recheck')[0]?.by).toBe('2026-06-09');
  });

  it('a day written before the last lift is done', () => {
    const animal = cow([
      visit('2026-05-05', { found: gap(12), recheck: '2026-05-20' }),
      visit(day, { found: gap(17) }),
    ]);
    expect(due(animal, 'recheck')[0]).toMatchObject({ by: '2026-06-30', basis: 'default' });
  });

  it('several lesions make one lift, on the day of the first', () => {
    const animal = cow([visit(day, { found: { ...gap(17), b: { stage: 'M2' } } })], {
      lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' }, b: { code: 'DD', foot: 'RH' } },
    });
    expect(due(animal, 'recheck')).toMatchObject([{ by: '2026-06-09', lesion: 'b' }]);
  });

  it('is overdue from the day after the grace and not before', () => {
    const animal = cow([visit(day, { found: gap(17) })]);
    expect(due(animal, 'recheck', '2026-06-30')[0]?.standing).toBe('open');
    expect(due(animal, 'recheck', '2026-07-01')[0]?.standing).toBe('overdue');
  });

  it('the farm’s intervals win over the business’s, and both over the default', () => {
    const business = { intervals: { 'block-off': 30, 'wrap-off': 2 } };
    const interval = intervalsInForce({ ...quernholt, intervals: { 'block-off': 35 } }, business);
    expect([interval('block-off'), interval('wrap-off'), interval('block-look')]).toEqual([35, 2, 7]);
  });

  it('a doubtful reading is taken again within two weeks', () => {
    const animal = cow([
      visit('2026-03-10', { found: read(10) }),
      visit('2026-04-07', { found: read(16) }),
      visit('2026-05-05', { found: read(22) }),
      visit(day, { found: read(23.6) }),
    ]);
    const { standing } = workOut(animal, today);
    expect(standing.lesions[0]?.standing).toBe('doubtful');
    expect(due(animal, 'measure-again')[0]?.by).toBe('2026-06-16');
  });
});

const items = (animal: Animal, on?: string) =>
  due(animal, undefined, on)
    .filter(({ what }) => what.startsWith('block'))
    .map(({ what, by, standing }) => [what, by, standing]);

describe('foul', () => {
  const foul = (...more: Visit[]) =>
    cow([visit(day, { found: { a: { state: 'present' } } }), ...more], {
      lesions: { a: { code: 'IP', foot: 'RH' } },
    });
  const looks = (animal: Animal) => due(animal, 'foul-look').map(({ by, who }) => [by, who]);

  it('is looked at by the farm the next day and on day 3, and lifted again after a week, not after six', () => {
    expect(looks(foul())).toEqual([
      ['2026-06-03', 'farm'],
      ['2026-06-05', 'farm'],
    ]);
    expect(due(foul(), 'recheck')).toMatchObject([{ by: '2026-06-09', overdueFrom: '2026-06-17' }]);
    expect(looks(other('CC', { a: { state: 'present' } }))).toEqual([]);
  });

  it('a look is done by a word of that day or later, and healed there is none', () => {
    expect(looks(foul(visit('2026-06-03', { kind: 'report' })))).toEqual([['2026-06-05', 'farm']]);
    expect(looks(foul(visit('2026-06-06', { kind: 'report' })))).toEqual([]);
    expect(looks(foul(visit('2026-06-02', { kind: 'report' })))).toHaveLength(2);
    expect(looks(foul(visit('2026-06-03', { found: { a: { state: 'healed' } } })))).toEqual([]);
  });
});

describe('blocks and wraps', () => {
  const fitted = visit(day, { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] });

  it('a look after a week, off after four', () => {
    expect(items(cow([fitted]))).toEqual([
      ['block-look', '2026-06-09', 'open'],
      ['block-off', '2026-06-30', 'open'],
    ]);
    expect(items(cow([fitted]), '2026-06-13')[0]?.[2]).toBe('open');
    expect(items(cow([fitted]), '2026-06-14')[0]?.[2]).toBe('overdue');
    expect(items(cow([fitted]), '2026-07-14')[1]?.[2]).toBe('open');
    expect(items(cow([fitted]), '2026-07-15')[1]?.[2]).toBe('overdue');
  });

  const after = (more: Partial<Visit>) =>
    items(cow([fitted, visit('2026-06-08', more)])).map(([what]) => what);

  it('a look is done by a look, and by a lift of that foot only', () => {
    expect(after({ blocks: [{ foot: 'LH', claw: 'inner', event: 'checked' }] })).toEqual(['block-off']);
    expect(after({ trimmed: ['LH'] })).toEqual(['block-off']);
    expect(after({ trimmed: ['RH'] })).toEqual(['block-look', 'block-off']);
    const thatDay = cow([fitted, visit(day, { trimmed: ['LH'] })]);
    expect(items(thatDay).map(([what]) => what)).toEqual(['block-look', 'block-off']);
  });

  const block = (event: 'replaced' | 'lost') =>
    cow([fitted, visit('2026-06-09', { blocks: [{ foot: 'LH', claw: 'inner', event }] })]);

  it('a replaced block starts its days anew, a lost one asks nothing', () => {
    expect(items(block('replaced')).map(([, by]) => by)).toEqual(['2026-06-16', '2026-07-07']);
    expect(items(block('lost'))).toEqual([]);
  });

  it('a wrap comes off after three days, unless the farm was asked by a day of its own', () => {
    const wrap = visit(day, { wraps: [{ foot: 'RH', event: 'fitted' }] });
    expect(due(cow([wrap]), 'wrap-off')).toMatchObject([{ by: '2026-06-05', who: 'farm', foot: 'RH' }]);
    const asked = cow([{ ...wrap, 'ask-farm': [{ what: 'wrap off', by: '2026-06-04' }] }]);
    expect(due(asked, 'wrap-off')).toEqual([]);
    expect(due(asked, 'farm-task')).toMatchObject([{ by: '2026-06-04', task: 'wrap off' }]);
  });
});

describe('walks', () => {
  it('lame: scored again in two weeks; severely: looked at next day, scored in three', () => {
    expect(due(cow([visit(day, { gait: 2 })]), 'gait-rescore')).toMatchObject([{ by: '2026-06-16' }]);
    const severe = cow([visit(day, { gait: 3 })]);
    expect(due(severe, 'severe-look')).toMatchObject([{ by: '2026-06-03', who: 'farm' }]);
    expect(due(severe, 'gait-rescore')).toMatchObject([{ by: '2026-06-05', overdueFrom: '2026-06-10' }]);
    expect(
      due(cow([visit(day, { gait: 3 }), visit('2026-06-03', { kind: 'report' })]), 'severe-look'),
    ).toEqual([]);
  });

  it('once a block has come off a score that counts is due', () => {
    const off = [
      visit('2026-05-05', { gait: 1, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }),
      visit(day, { gait: 1, blocks: [{ foot: 'LH', claw: 'inner', event: 'removed' }] }),
    ];
    expect(due(cow(off), 'gait-rescore')).toMatchObject([{ by: '2026-06-16', overdueFrom: '2026-07-01' }]);
    expect(due(cow(off), 'gait-rescore', '2026-06-30')).toMatchObject([{ standing: 'open' }]);
    expect(due(cow(off), 'gait-rescore', '2026-07-01')).toMatchObject([{ standing: 'overdue' }]);
    expect(due(cow([...off, visit('2026-06-09', { kind: 'report', gait: 1 })]), 'gait-rescore')).toEqual([]);
    // Lame again, not yet visited: the block was on for what has healed.
    const again = {
      episodes: [{ ended: '2026-06-05', result: 'sound' as const }, { 'lame-since': '2026-06-08' }],
    };
    expect(due(cow(off, again), 'gait-rescore')).toEqual([]);
  });

  it('the farm’s own day to score her is alone', () => {
    const animal = cow([visit(day, { gait: 2, 'ask-farm': [{ what: 'score her walk', by: '2026-06-12' }] })]);
    expect(due(animal, 'gait-rescore')).toEqual([]);
    expect(due(animal, 'farm-task')[0]?.by).toBe('2026-06-12');
  });

  it('the other foot of the pair is looked at when she is lifted next', () => {
    const animal = cow([visit(day, { gait: 2, found: gap(17) })]);
    expect(due(animal, 'look-other-foot')).toMatchObject([{ by: '2026-06-16', foot: 'RH' }]);
  });
});

describe('withdrawals', () => {
  const use = { product: 'x', class: 'medicine', 'milk-days': 4, 'meat-days': 10 } as const;
  const given = (more: Partial<Animal> = {}) => cow([visit('2026-06-08', { products: [use] })], more);

  it('last withheld and first clear day, until the clear day comes', () => {
    expect(due(given(), 'milk-clear')).toMatchObject([{ lastWithheld: '2026-06-12', by: '2026-06-13' }]);
    expect(due(given(), 'meat-clear')).toMatchObject([{ lastWithheld: '2026-06-18', by: '2026-06-19' }]);
    expect(due(given(), 'milk-clear', '2026-06-12')).toHaveLength(1);
    expect(due(given(), 'milk-clear', '2026-06-13')).toEqual([]);
  });

  it('run on in a closed case, which has nothing else due', () => {
    const closed = given({ episodes: [{ ended: '2026-06-09', result: 'sold' }] });
    expect(due(closed).map(({ what }) => what)).toEqual(['milk-clear', 'meat-clear']);
  });

  it('not recorded is said, for a year', () => {
    const animal = cow([
      visit('2026-06-08', { products: [{ product: 'x', class: 'not sure', 'milk-days': 0 }] }),
    ]);
    expect(due(animal, 'withdrawal-not-recorded')).toMatchObject([
      { why: { key: 'due.why.withdrawal-not-recorded-meat' } },
    ]);
    expect(due(animal, 'withdrawal-not-recorded', '2027-06-08')).toEqual([]);
  });

  const told = (animal: Animal) =>
    due(animal)
      .filter(({ what }) => /clear|recorded/.test(what))
      .map(({ what, by, notRecorded, why }) => [
        what,
        by,
        notRecorded ?? why.values['product'],
        why.values['more'],
      ]);

  it('of a dry cow the vet is asked, and no clear day is beside it', () => {
    expect(told(given({ 'dried-off': ['2026-05-20'] }))).toEqual([
      ['withdrawal-not-recorded', '2026-06-08', 'milk', 0],
      ['meat-clear', '2026-06-19', 'x', undefined],
    ]);
    expect(told(given({ 'dried-off': ['2024-08-20'] }))).toHaveLength(2);
  });

  it('one clear day each, of the product that counts, and one item to ask, however much is not known', () => {
    const several = (...uses: ProductUse[]) => cow([visit('2026-06-08', { products: uses })]);
    const longer = { ...use, product: 'y', 'milk-days': 9, 'meat-days': 2 };
    expect(told(several(use, longer))).toEqual([
      ['milk-clear', '2026-06-18', 'y', undefined],
      ['meat-clear', '2026-06-19', 'x', undefined],
    ]);
    const twice = cow([
      visit('2026-06-05', { 'pain-relief': 'given' }),
      visit('2026-06-08', { 'pain-relief': 'given', products: [{ product: 'y', lesion: 'a' }] }),
    ]);
    expect(told(twice)).toEqual([['withdrawal-not-recorded', '2026-06-05', 'both', 2]]);
  });
});

describe('pain relief asked for', () => {
  const asks = (...visits: Visit[]) =>
    due(cow([visit('2026-06-08', { gait: 2, 'pain-relief': 'asked' }), ...visits]), 'pain-relief-ask');

  it('is a job from the next day on, late from the day after', () => {
    expect(asks()).toMatchObject([{ by: '2026-06-09', standing: 'overdue', who: 'farm' }]);
    const animal = cow([visit('2026-06-08', { 'pain-relief': 'asked' })]);
    expect(due(animal, 'pain-relief-ask', '2026-06-08')).toEqual([]);
    expect(due(animal, 'pain-relief-ask', '2026-06-09')[0]?.standing).toBe('open');
  });

  it('is answered by a word, the vet, a product or a walk below lame, and by nothing else', () => {
    const report = (more: Partial<Visit>) => visit('2026-06-09', { kind: 'report', ...more });
    expect(asks(report({}))).toHaveLength(1);
    expect(asks(report({ 'pain-relief': 'farm declined' }))).toEqual([]);
    expect(asks(report({ products: [{ product: 'x' }] }))).toEqual([]);
    expect(asks(report({ products: [{ product: 'x', lesion: 'a' }] }))).toHaveLength(1);
    expect(asks(report({ gait: 1 }))).toEqual([]);
    expect(asks(report({ gait: 2 }))).toHaveLength(1);
    const asked = visit('2026-06-08', { kind: 'report', vet: { asked: '2026-06-08', why: 'lame' } });
    expect(asks(asked, report({ 'vet-answer': { to: '2026-06-08', by: 'V', reply: 'none' } }))).toEqual([]);
  });
});

const bathing = (from: string, to: string) => ({ ...quernholt, footbath: [{ from, to, product: 'x' }] });

describe('footbath', () => {
  const raw = other('SU', { a: { state: 'open', width: 9 } });

  it('an open ulcer asks before the bath while the farm bathes', () => {
    expect(due(raw, 'footbath-ask-vet', today, bathing('2026-05-01', '2026-07-01'))).toMatchObject([
      { by: day },
    ]);
    expect(due(raw, 'footbath-ask-vet', today, bathing('2026-07-01', '2026-08-01'))[0]?.by).toBe(
      '2026-07-01',
    );
    expect(due(raw, 'footbath-ask-vet', today, bathing('2026-01-01', '2026-06-09'))).toEqual([]);
    const covered = other('SU', { a: { state: 'covered' } });
    expect(due(covered, 'footbath-ask-vet', today, bathing('2026-05-01', '2026-07-01'))).toEqual([]);
  });
});

describe('marks', () => {
  const animal = cow([visit(day, { found: gap(17), 'ask-farm': [{ what: 'straw pen', by: '2026-06-12' }] })]);

  const marked = (next: string) =>
    due(animal, undefined, today, { ...quernholt, 'next-visit': next })
      .filter(({ beforeNextVisit }) => beforeNextVisit)
      .map(({ what }) => what);

  it('what needs a lift before our next visit is marked, the farm’s own task is not', () => {
    expect(marked('2026-06-17')).toEqual(['recheck']);
    expect(marked('2026-06-16')).toEqual([]);
  });

  it('each job that needs a foot lifted is', () => {
    const lame = cow([
      visit(day, { gait: 2, found: gap(17), blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }),
    ]);
    const before = due(lame, undefined, today, { ...quernholt, 'next-visit': '2026-08-01' });
    expect(before.filter(({ beforeNextVisit }) => beforeNextVisit).map(({ what }) => what)).toEqual([
      'block-look',
      'recheck',
      'look-other-foot',
      'block-off',
    ]);
  });

  const near = (calving: string) => due({ ...animal, 'due-to-calve': calving }, 'recheck')[0]?.nearCalving;

  it('near calving: from 28 days before to 14 after, never dropped', () => {
    expect(near('2026-07-14')).toBe(true);
    expect(near('2026-07-15')).toBe(false);
    expect(near('2026-06-02')).toBe(true);
    expect(near('2026-06-01')).toBe(false);
  });

  it('a word that it was done answers the latest request that stood then, and an older one is not waited for', () => {
    const ask = (date: string, by: string) => visit(date, { 'ask-farm': [{ what: 'score her walk', by }] });
    const did = (date: string, on: string) =>
      visit(date, { kind: 'report', 'farm-did': [{ what: 'score her walk', on }] });
    const tasks = (...visits: Visit[]) => due(cow(visits), 'farm-task').map(({ by, doneOn }) => [by, doneOn]);
    const [first, second] = [ask('2026-05-05', '2026-05-12'), ask('2026-05-19', '2026-05-26')];
    expect(tasks(first, second, did('2026-05-27', '2026-05-26'))).toEqual([['2026-05-26', '2026-05-26']]);
    expect(tasks(first, second)).toEqual([
      ['2026-05-12', undefined],
      ['2026-05-26', undefined],
    ]);
    expect(tasks(first, second, did('2026-05-27', '2026-05-10'))).toEqual([
      ['2026-05-12', '2026-05-10'],
      ['2026-05-26', undefined],
    ]);
    expect(tasks(first, did('2026-05-13', '2026-05-12'), second, did('2026-05-27', '2026-05-26'))).toEqual([
      ['2026-05-12', '2026-05-12'],
      ['2026-05-26', '2026-05-26'],
    ]);
  });

  it('a task that ran to a day is after it a question, never overdue; one that is done once is overdue', () => {
    const on = (now: string) => due(animal, undefined, now).filter(({ task }) => task !== undefined);
    expect(on('2026-06-12')).toMatchObject([{ what: 'farm-task', standing: 'open' }]);
    expect(on('2026-07-12')).toMatchObject([{ what: 'farm-task-done', standing: 'open' }]);
    const once = cow([visit(day, { 'ask-farm': [{ what: 'wrap off', by: '2026-06-12' }] })]);
    expect(due(once, 'farm-task', '2026-06-13')).toMatchObject([{ standing: 'overdue' }]);
  });

  it('out of the bath she stays while live tissue shows, and not for dermatitis or once it is covered', () => {
    const bath = (found: Visit['found'], code: 'WL' | 'SU' | 'DD' = 'WL') =>
      due(
        cow([visit(day, { found, 'ask-farm': [{ what: 'keep out of footbath', by: '2026-06-05' }] })], {
          lesions: { a: { code, foot: 'LH', claw: 'outer', line: 'heel' } },
        }),
      ).filter(({ task }) => task !== undefined);
    expect(bath({ a: { state: 'open', signs: ['exposed corium'] } })).toMatchObject([
      { what: 'farm-task', standing: 'open', why: { key: 'due.why.farm-task-corium' } },
    ]);
    expect(bath({ a: { state: 'open', width: 9 } }, 'SU')).toMatchObject([
      { what: 'farm-task', why: { key: 'due.why.farm-task-ulcer' } },
    ]);
    expect(bath({ a: { state: 'covered', signs: ['exposed corium'] } })).toMatchObject([
      { what: 'farm-task-done' },
    ]);
    expect(bath({ a: { stage: 'M2' } }, 'DD')).toMatchObject([{ what: 'farm-task-done' }]);
  });

  it('a task done is kept as done', () => {
    const done = cow([
      ...animal.visits,
      visit('2026-06-09', { kind: 'report', 'farm-did': [{ what: 'straw pen', on: '2026-06-03' }] }),
    ]);
    expect(due(done, 'farm-task')).toMatchObject([{ standing: 'done', doneOn: '2026-06-03' }]);
  });
});

it('nothing is due for a closed case with nothing on her, and everything is again when trouble is found after', () => {
  const closed = { episodes: [{ ended: '2026-05-20', result: 'sound' as const }] };
  expect(due(cow([visit('2026-05-05', { found: gap(17), recheck: '2026-06-01' })], closed))).toEqual([]);
  const again = cow([visit('2026-05-05', { found: gap(40) }), visit(day, { found: gap(17) })], closed);
  expect(due(again, 'recheck')).toHaveLength(1);
});

it('shifting every date shifts every due date and changes nothing else', () => {
  const someVisit = fc.record({
    at: fc.integer({ min: 0, max: 160 }),
    kind: fc.constantFrom('recheck', 'report', 'missed' as const),
    top: fc.option(fc.integer({ min: 0, max: 40 }), { nil: undefined }),
    stage: fc.option(fc.constantFrom(...ddStages), { nil: undefined }),
    gait: fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined }),
    block: fc.option(fc.constantFrom('fitted', 'checked', 'lost', 'removed' as const), { nil: undefined }),
    milk: fc.option(fc.integer({ min: 0, max: 9 }), { nil: undefined }),
    recheck: fc.option(fc.integer({ min: 1, max: 60 }), { nil: undefined }),
  });
  type Some = typeof someVisit extends fc.Arbitrary<infer T> ? T : never;
  const build = (some: readonly Some[], start: string) =>
    cow(
      some
        .toSorted((a, b) => a.at - b.at)
        .map((one) => {
          const date = addDays(start, one.at);
          const lifted = one.kind === 'recheck';
          return visit(date, {
            kind: one.kind as Visit['kind'],
            ...(one.gait === undefined || one.kind === 'missed' ? {} : { gait: one.gait }),
            ...(one.recheck === undefined ? {} : { recheck: addDays(date, one.recheck) }),
            ...(lifted
              ? { found: { ...gap(one.top), ...(one.stage ? { b: { stage: one.stage } } : {}) } }
              : {}),
            ...(one.block ? { blocks: [{ foot: 'LH', claw: 'inner', event: one.block }] } : {}),
            ...(one.milk === undefined ? {} : { products: [{ product: 'x', 'milk-days': one.milk }] }),
          });
        }),
      {
        calvings: [addDays(start, 100)],
        lesions: {
          a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
          b: { code: 'DD', foot: 'RH' },
        },
      },
    );
  fc.assert(
    fc.property(
      fc.array(someVisit, { minLength: 1, maxLength: 6 }),
      fc.integer({ min: 1, max: 2000 }),
      (some, shift) => {
        const start = '2026-01-01';
        const now = addDays(start, 170);
        const here = due(build(some, start), undefined, now);
        const there = due(build(some, addDays(start, shift)), undefined, addDays(now, shift));
        const told = (worked: typeof here, by: number) =>
          worked.map((item) => [
            item.what,
            addDays(item.by, by),
            item.overdueFrom && addDays(item.overdueFrom, by),
            item.standing,
            item.nearCalving,
            item.lesion,
            item.why.key,
          ]);
        expect(told(there, 0)).toEqual(told(here, shift));
      },
    ),
    { numRuns: 150, seed: 11 },
  );
});

describe('who, on what basis, where and why', () => {
  const inner = (event: 'fitted' | 'already on' | 'removed' | 'lost'): Partial<Visit> => ({
    blocks: [{ foot: 'LH', claw: 'inner', event }],
  });
  const a = { lesion: 'a', foot: 'LH', claw: 'outer' };
  const raw = other('SU', { a: { state: 'open', width: 9 } });
  const onBlock = (more: Partial<Visit>) => cow([visit('2026-05-26', inner('fitted')), visit(day, { gait: 2, ...more })]);
  it.each<[string, readonly unknown[], object]>([
    ['rechecked after a length', due(cow([visit(day, { found: gap(17) })]), 'recheck'), { who: 'trimmer', basis: 'default', why: { key: 'due.why.recheck-wall-second', values: { day, lesion: 'a', days: 14 } }, ...a }],
    ['on a day that was written', due(cow([visit(day, { found: gap(17), recheck: '2026-06-16' })]), 'recheck'), { who: 'trimmer', basis: 'written', overdueFrom: '2026-06-17', why: { key: 'due.why.recheck-written', values: { day } }, ...a }],
    ['only told of', due(cow([visit(day, { kind: 'report' })]), 'recheck'), { by: day, basis: 'record', why: { key: 'due.why.recheck-never-lifted', values: { day } }, ...a }],
    ['never presented', due(cow([visit(day, { kind: 'missed' })]), 'recheck'), { by: day, basis: 'record', why: { key: 'due.why.recheck-never-presented', values: { day } } }],
    ['a block to look at', due(cow([visit(day, inner('fitted'))]), 'block-look'), { who: 'trimmer', basis: 'default', foot: 'LH', claw: 'inner', why: { key: 'due.why.block-look', values: { day, days: 8 } } }],
    ['a block to come off', due(cow([visit(day, inner('fitted'))]), 'block-off'), { who: 'trimmer', basis: 'default', foot: 'LH', claw: 'inner', why: { key: 'due.why.block-off', values: { day, days: 8 } } }],
    ['a block that was there', due(cow([visit(day, inner('already on'))]), 'block-off'), { why: { key: 'due.why.block-off-already-on', values: { day, days: 8 } } }],
    ['a wrap', due(cow([visit(day, { wraps: [{ foot: 'RH', event: 'fitted' }] })]), 'wrap-off'), { who: 'farm', basis: 'default', foot: 'RH', why: { key: 'due.why.wrap-off', values: { day, foot: 'RH' } } }],
    ['lame, never on a block', due(cow([visit(day, { gait: 2 })]), 'gait-rescore'), { who: 'farm', basis: 'default', why: { key: 'due.why.gait-rescore-off-no-block', values: { day, score: 2 } } }],
    ['lame on a block', due(onBlock({}), 'gait-rescore'), { why: { key: 'due.why.gait-rescore-on', values: { day, score: 2 } } }],
    ['lame, a block lost that day', due(onBlock(inner('lost')), 'gait-rescore'), { why: { key: 'due.why.gait-rescore-unclear', values: { day, score: 2 } } }],
    ['lame off a block', due(onBlock({ 'on-block': false, ...inner('removed') }), 'gait-rescore'), { why: { key: 'due.why.gait-rescore-off', values: { day, score: 2 } } }],
    ['severely lame', due(cow([visit(day, { gait: 3 })]), 'gait-rescore'), { who: 'farm', why: { key: 'due.why.severe-rescore', values: { day, score: 3 } } }],
    ['severely lame, a look', due(cow([visit(day, { gait: 3 })]), 'severe-look'), { who: 'farm', basis: 'default', why: { key: 'due.why.severe-look', values: { day, score: 3 } } }],
    ['the other foot', due(cow([visit(day, { gait: 2, found: gap(17) })]), 'look-other-foot'), { who: 'trimmer', basis: 'record', foot: 'RH', why: { key: 'due.why.look-other-foot', values: { day, foot: 'RH' } } }],
    ['pain relief asked for', due(cow([visit(day, { 'pain-relief': 'asked' })]), 'pain-relief-ask'), { who: 'farm', basis: 'record', overdueFrom: '2026-06-04', why: { key: 'due.why.pain-relief-ask', values: { day } } }],
    ['a footbath and an ulcer', due(raw, 'footbath-ask-vet', today, bathing('2026-05-01', '2026-07-01')), { who: 'farm', basis: 'record', foot: 'RH', lesion: 'a', overdueFrom: '2026-06-03', why: { key: 'due.why.footbath-ask-vet-ulcer', values: { day } } }],
    ['a task of the farm’s', due(cow([visit(day, { 'ask-farm': [{ what: 'straw pen', by: '2026-06-12' }] })]), 'farm-task'), { who: 'farm', basis: 'written', task: 'straw pen', why: { key: 'due.why.farm-task', values: { day } } }],
    ['a notice nobody asked the vet about', due(cow([visit(day, { feet: { LH: { signs: ['bone'] } } })]), 'vet-ask'), { who: 'farm', basis: 'record', by: day, overdueFrom: '2026-06-03', urgency: 'same-day', foot: 'LH', why: { values: { rule: 'bone', count: 1, foot: 'LH' } } }],
  ])('%s', (_, jobs, expected) => {
    expect(jobs).toMatchObject([expected]);
  });
}); // prettier-ignore

it('what cannot wait comes first whatever its day, then the earliest', () => {
  const animal = cow([
    visit('2026-05-05', { found: gap(17), recheck: '2026-05-20', 'ask-farm': [{ what: 'wrap off', by: '2026-05-12' }] }),
    visit(day, { kind: 'report', feet: { RF: { signs: ['blisters'] } }, signs: ['off feed'] }),
  ]); // prettier-ignore
  expect(due(animal).map(({ what, by, urgency }) => [what, by, urgency])).toEqual([
    ['vet-ask', day, 'stop-work'],
    ['farm-task', '2026-05-12', undefined],
    ['recheck', '2026-05-20', undefined],
  ]);
});

it('several notices are one question to the vet, as urgent as the worst and counting all not asked about yet', () => {
  const signs = { LH: { signs: ['bone' as const] }, RF: { signs: ['blisters' as const] } };
  const asks = (about?: string[]) =>
    due(
      cow([visit(day, { feet: signs, ...(about && { vet: { asked: day, why: 'x', about } }) })]),
      'vet-ask',
    ).map(({ urgency, why }) => [urgency, why.values['rule'], why.values['count']]);
  expect(asks()).toEqual([['stop-work', 'blisters', 2]]);
  expect(asks(['blisters'])).toEqual([['same-day', 'bone', 1]]);
  expect(asks(['blisters', 'bone'])).toEqual([]);
});

it('an answer waited for is asked after the next day, about what can wait after a week', () => {
  const waits = (about: string[] | undefined, now: string) =>
    due(
      cow([visit(day, { feet: { LH: { signs: ['bone'] } }, vet: { asked: day, why: 'x', ...(about && { about }) } })]),
      undefined,
      now,
    )
      .filter(({ what }) => what === 'vet-answer' || what === 'vet-ring-again')
      .map(({ what, who, by, urgency, overdueFrom }) => [what, who, by, urgency, overdueFrom]);
  expect(waits(['bone'], day)).toEqual([['vet-answer', 'vet', day, 'same-day', undefined]]);
  expect(waits(['bone'], '2026-06-03')).toEqual([['vet-ring-again', 'farm', '2026-06-03', 'same-day', '2026-06-04']]);
  expect(waits(undefined, '2026-06-08')).toEqual([['vet-answer', 'vet', day, 'notice', undefined]]);
  expect(waits(undefined, '2026-06-09')).toEqual([['vet-ring-again', 'farm', '2026-06-09', 'notice', '2026-06-10']]);
}); // prettier-ignore

it('of a closed case the vet is asked about what still stops work, and about nothing else', () => {
  const asked = (signs: Sign[]) =>
    due(
      cow([visit('2026-05-12', { feet: { RF: { signs } }, vet: { asked: '2026-05-12', why: 'thin' } })], {
        episodes: [{ ended: '2026-05-20', result: 'sold' }],
      }),
    ).map(({ what }) => what);
  expect(asked(['blisters'])).toContain('vet-ask');
  expect(asked(['heat', 'swollen heel'])).toEqual([]);
});

describe('a block and a wrap on a closed case', () => {
  const on = {
    blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' } as const],
    wraps: [{ foot: 'LH', event: 'fitted' } as const],
  };
  const closed = (
    result: 'sound' | 'lost to follow-up' | 'sold',
    more: Partial<Animal['visits'][number]> = {},
  ) =>
    due(
      cow([visit('2026-03-30', on), visit('2026-04-06', { kind: 'report', ...more })], {
        episodes: [{ ended: '2026-04-20', result }],
      }),
      undefined,
      '2026-06-15',
    ).map(({ what, standing }) => `${what} ${standing}`);

  it('stay jobs until they are recorded off, 77 days and more', () => {
    expect(closed('sound')).toEqual(['wrap-off overdue', 'block-off overdue']);
    expect(closed('lost to follow-up')).toHaveLength(2);
  });
  it('are none once they are off, nor of a cow that has left', () => {
    const off = {
      blocks: [{ foot: 'LH', claw: 'inner', event: 'removed' } as const],
      wraps: [{ foot: 'LH', event: 'removed' } as const],
    };
    expect(closed('sound', off)).toEqual([]);
    expect(closed('sold')).toEqual([]);
  });
});

import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import type { Found, Visit } from '../../src/record/visit.js';
import { type Foot, fixtureEvents, type LesionCode } from '../../src/record/words.js';
import { cow, quernholt, visit, workOut } from '../schedule/a-case.js';

const block = (event: (typeof fixtureEvents)[number], on?: string) => ({
  blocks: [{ foot: 'LH', claw: 'inner', event, ...(on ? { on } : {}) } as const],
});
const walk = (visits: readonly Visit[], today = '2026-06-10') => workOut(cow(visits), today).standing.gait;

const after = (date: string) =>
  walk([
    visit('2026-01-06', { gait: 2, ...block('fitted') }),
    visit('2026-02-03', block('removed')),
    visit(date, { gait: 1, kind: 'report' }),
  ]).standing;

describe('on the block and off it', () => {
  it('a block fitted at a visit was not on when she walked in; one removed was', () => {
    const gait = walk([
      visit('2026-01-06', { gait: 2, ...block('fitted') }),
      visit('2026-02-03', { gait: 1, ...block('checked') }),
      visit('2026-03-03', { gait: 1, ...block('removed') }),
      visit('2026-03-12', { gait: 2 }),
    ]);
    expect(gait.scores.map((score) => score.block)).toEqual(['off', 'on', 'on', 'off']);
  });

  it('easier on the block is not sound, and says what she walked without', () => {
    const gait = walk([
      visit('2026-01-06', { gait: 2, ...block('fitted') }),
      visit('2026-02-03', { gait: 1 }),
    ]);
    expect(gait.standing).toBe('easier-on-block');
    expect(gait.lastOffBlock?.score).toBe(2);
  });

  it('of several scores off the block the latest counts', () => {
    const gait = walk([
      visit('2026-01-06', { gait: 3 }),
      visit('2026-02-03', { gait: 1 }),
      visit('2026-03-03', { gait: 2, ...block('fitted') }),
      visit('2026-03-31', { gait: 1 }),
    ]);
    expect(gait.lastOffBlock).toMatchObject({ date: '2026-03-03', score: 2 });
  });

  it('counts from 7 days after the block came off, and not from 6', () => {
    expect(after('2026-02-09')).toBe('not-lame-not-proved');
    expect(after('2026-02-10')).toBe('sound');
  });

  it('a loss on an unknown day counts from the day it was found, and leaves the walk in between unclear', () => {
    const gait = walk([
      visit('2026-01-06', { gait: 2, ...block('fitted') }),
      visit('2026-01-20', { kind: 'report', gait: 1 }),
      visit('2026-02-03', { gait: 1, ...block('lost', 'unknown') }),
    ]);
    expect(gait.scores.map((score) => score.block)).toEqual(['off', 'unclear', 'unclear']);
    expect(gait.standing).toBe('not-lame-not-proved');
  });

  const [fit, day] = [visit('2026-01-06', block('fitted')), '2026-02-03'];
  const report = { kind: 'report', gait: 1 } as const;
  it.each<[string, string, readonly Visit[]]>([
    ['before one was fitted', 'off', [visit('2026-01-05', { gait: 1 }), fit]],
    ['told of the day one was fitted', 'unclear', [visit(day, { ...report, ...block('fitted') })]],
    ['the day somebody else’s was seen', 'on', [visit(day, { gait: 1, ...block('already on') })]],
    ['before somebody else’s was seen', 'unclear', [visit(day, { gait: 1 }), visit('2026-02-10', block('already on'))]],
    ['the day one was taken off', 'on', [fit, visit(day, { gait: 1, ...block('removed') })]],
    ['told of the day one was taken off', 'unclear', [fit, visit(day, { ...report, ...block('removed') })]],
    ['the day after', 'off', [fit, visit('2026-02-02', block('removed')), visit(day, { gait: 1 })]],
    ['the day before one was lost', 'on', [fit, visit(day, { gait: 1 }), visit('2026-02-10', block('lost', '2026-02-04'))]],
    ['the day one was lost', 'unclear', [fit, visit(day, { gait: 1, ...block('lost') })]],
    ['the last day it was seen, lost since', 'on', [fit, visit(day, { gait: 1, ...block('checked') }), visit('2026-02-10', block('lost', 'unknown'))]],
    ['between that and the day it was missed', 'unclear', [fit, visit(day, { gait: 1 }), visit('2026-02-10', block('lost', 'unknown'))]],
  ])('%s: %s', (_, on, visits) => {
    expect(walk(visits).scores.map((score) => score.block)).toEqual([on]);
  }); // prettier-ignore

  it.each<[string, readonly Visit[]]>([
    ['not-scored', [fit]],
    ['lame-off-block', [visit(day, { gait: 2 })]],
    ['lame-on-block', [fit, visit(day, { gait: 2 })]],
    ['lame-block-unclear', [fit, visit(day, { gait: 2, ...block('lost') })]],
    ['easier-on-block', [visit('2026-01-06', { gait: 2, ...block('fitted') }), visit(day, { gait: 1 })]],
    ['not-lame-not-proved', [visit('2026-01-06', { gait: 1, ...block('fitted') }), visit(day, { gait: 0 })]],
    ['not-lame-not-proved', [fit, visit(day, { gait: 1 })]],
  ])('%s', (standing, visits) => {
    expect(walk(visits).standing).toBe(standing);
  });

  it('days off the block are from its end to the last score off it; none where she had none or is on one', () => {
    const off = [fit, visit(day, block('removed'))];
    expect(walk([...off, visit('2026-02-10', { gait: 1 })]).daysOffBlock).toBe(7);
    expect(walk([visit(day, { gait: 1 })]).daysOffBlock).toBeUndefined();
    expect(walk([fit, visit(day, { gait: 1 })]).daysOffBlock).toBeUndefined();
    expect(walk([fit]).blockNow).toBe('on');
    expect(walk(off).blockNow).toBe('off');
  });

  it('the visit’s own word wins', () => {
    const gait = walk([
      visit('2026-01-06', block('fitted')),
      visit('2026-02-03', { gait: 2, 'on-block': false }),
    ]);
    expect(gait.standing).toBe('lame-off-block');
  });

  it('a block fitted after a sound walk takes the word back', () => {
    expect(walk([visit('2026-01-06', { gait: 1 })]).standing).toBe('sound');
    expect(walk([visit('2026-01-06', { gait: 1, ...block('fitted') })]).standing).toBe('not-lame-not-proved');
  });

  it('the scale in force on the day decides what is lame', () => {
    const farm = {
      ...quernholt,
      'gait-scale': [
        { from: '2024-01-01', scale: 'sprecher-1-5' as const },
        { from: '2026-02-01', scale: 'uk-0-3' as const },
      ],
    };
    const { scores } = workOut(
      cow([visit('2026-01-06', { gait: 2 }), visit('2026-02-06', { gait: 2 })]),
      '2026-06-10',
      farm,
    ).standing.gait;
    expect(scores.map(({ scale, lame }) => [scale, lame])).toEqual([
      ['sprecher-1-5', false],
      ['uk-0-3', true],
    ]);
  });
});

describe('the other foot of the pair', () => {
  const found = { a: { state: 'open', top: 17 } } as const;
  const other = (more: Partial<Visit>) => walk([visit('2026-06-02', { found, gait: 2, ...more })]).otherFoot;

  it('is asked for while she is lame and it was not lifted, and not once it was', () => {
    expect(other({})).toBe('RH');
    expect(other({ feet: { RH: { lifted: true } } })).toBeUndefined();
    expect(other({ gait: 1 })).toBeUndefined();
    expect(other({ feet: { RH: { lifted: false } }, trimmed: ['RH'] })).toBe('RH');
    expect(other({ trimmed: ['RH'] })).toBeUndefined();
    expect(other({ trimmed: ['RF'] })).toBe('RH');
  });

  it('is asked for as of the day, by the last lift up to it', () => {
    const visits = [
      visit('2026-05-05', { trimmed: ['RH'] }),
      visit('2026-06-02', { found, gait: 2 }),
      visit('2026-06-04', { kind: 'report', gait: 2 }),
      visit('2026-06-09', { trimmed: ['RH'], gait: 2 }),
      visit('2026-06-10', { kind: 'report', gait: 2 }),
    ];
    expect(walk(visits, '2026-06-05').otherFoot).toBe('RH');
    expect(walk(visits, '2026-06-09').otherFoot).toBeUndefined();
    expect(walk(visits, '2026-06-10').otherFoot).toBeUndefined();
  });

  it('is what a lesion that hurts is on, at the last visit that lifted feet', () => {
    const sore = (foot: Foot, code: LesionCode, of: Found, also: readonly Visit[] = []) =>
      workOut(
        cow([visit('2026-06-02', { found: { a: of }, gait: 2 }), ...also], {
          lesions: { a: { code, foot, ...(code === 'WL' && { claw: 'outer', line: 'heel' }) } },
        }),
        '2026-06-10',
      ).standing.gait.otherFoot;
    expect((['LF', 'RF', 'LH', 'RH'] as const).map((foot) => sore(foot, 'WL', { state: 'open' }))).toEqual([
      'RF',
      'LF',
      'RH',
      'LH',
    ]);
    expect(sore('LH', 'DD', { stage: 'M2' })).toBe('RH');
    expect(sore('LH', 'DD', { stage: 'M4' })).toBeUndefined();
    expect(sore('LH', 'IP', { state: 'present' })).toBe('RH');
    expect(sore('LH', 'CC', { state: 'present' })).toBeUndefined();
    expect(sore('LH', 'CC', { state: 'present', infected: true })).toBe('RH');
    expect(sore('LH', 'SU', { state: 'covered' })).toBeUndefined();
    expect(sore('LH', 'SU', { state: 'open', joined: 'b' })).toBeUndefined();
    expect(sore('LH', 'SU', { state: 'healed', infected: true })).toBeUndefined();
    const both = cow(
      [visit('2026-06-02', { found: { a: { state: 'open' }, b: { state: 'open' } }, gait: 2 })],
      {
        lesions: { a: { code: 'SU', foot: 'LH' }, b: { code: 'SU', foot: 'RH' } },
      },
    );
    expect(workOut(both, '2026-06-10').standing.gait.otherFoot).toBeUndefined();
    const later = visit('2026-06-09', { kind: 'report', trimmed: ['RH'] });
    expect(sore('LH', 'SU', { state: 'open' }, [later])).toBe('RH');
    expect(sore('LH', 'SU', { state: 'open' }, [{ ...later, kind: 'recheck' }])).toBeUndefined();
  });
});

describe('laws', () => {
  const day = fc.integer({ min: 0, max: 120 });
  const someVisit = fc.record({
    at: day,
    gait: fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined }),
    event: fc.option(fc.constantFrom(...fixtureEvents), { nil: undefined }),
    unknown: fc.boolean(),
    said: fc.option(fc.boolean(), { nil: undefined }),
    report: fc.boolean(),
  });
  type SomeVisit = typeof someVisit extends fc.Arbitrary<infer T> ? T : never;
  const build = (some: SomeVisit[], start: string) =>
    some
      .toSorted((a, b) => a.at - b.at)
      .map(({ at, gait, event, unknown, said, report }) =>
        visit(addDays(start, at), {
          kind: report ? 'report' : 'recheck',
          ...(gait === undefined ? {} : { gait }),
          ...(said === undefined ? {} : { 'on-block': said }),
          ...(event === undefined ? {} : block(event, event === 'lost' && unknown ? 'unknown' : undefined)),
        }),
      );

  it('a block on, or one off for less than 7 days, never yields sound', () => {
    fc.assert(
      fc.property(fc.array(someVisit, { minLength: 1, maxLength: 8 }), (some) => {
        const animal = cow(build(some, '2026-01-01'));
        const { gait } = workOut(animal, '2026-05-10').standing;
        if (gait.standing !== 'sound') return;
        expect(gait.blockNow).toBe('off');
        expect(gait.last?.block).toBe('off');
        expect(gait.last?.lame).toBe(false);
        const events = animal.visits.flatMap(({ date, blocks }) => (blocks ?? []).map(() => date));
        const last = events.at(-1);
        if (last) expect(addDays(last, 7) <= (gait.last?.date ?? '')).toBe(true);
      }),
      { numRuns: 400, seed: 7 },
    );
  });

  it('shifting every date shifts nothing but the dates', () => {
    fc.assert(
      fc.property(
        fc.array(someVisit, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 1, max: 900 }),
        (some, by) => {
          const here = workOut(cow(build(some, '2026-01-01')), '2026-05-10').standing.gait;
          const there = workOut(cow(build(some, addDays('2026-01-01', by))), addDays('2026-05-10', by))
            .standing.gait;
          expect(there.standing).toBe(here.standing);
          expect(there.scores.map(({ block: on, date }) => [on, date])).toEqual(
            here.scores.map(({ block: on, date }) => [on, addDays(date, by)]),
          );
        },
      ),
      { numRuns: 100, seed: 7 },
    );
  });
});

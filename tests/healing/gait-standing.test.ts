import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import type { Visit } from '../../src/record/visit.js';
import { fixtureEvents } from '../../src/record/words.js';
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

import { describe, expect, it } from 'vitest';
import { blockTimeline } from '../../src/healing/block-timeline.js';
import { wrapTimeline } from '../../src/healing/fixture-span.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, visit } from '../schedule/a-case.js';

const inner = { foot: 'LH', claw: 'inner' } as const;

describe('one block after another', () => {
  it('fitted, looked at, removed: days are counted by the events’ own dates', () => {
    const animal = cow([
      visit('2026-01-06', { blocks: [{ ...inner, event: 'fitted', material: 'wood' }] }),
      visit('2026-01-13', { blocks: [{ ...inner, event: 'checked' }] }),
      visit('2026-02-10', {
        blocks: [{ ...inner, event: 'removed', on: '2026-02-03', 'carrying-claw': 'bruised' }],
      }),
    ]);
    const { spans, on, daysByFoot } = blockTimeline(animal, '2026-03-01');
    expect(spans).toHaveLength(1);
    expect(spans[0]).toMatchObject({
      from: '2026-01-06',
      fitted: true,
      material: 'wood',
      looks: ['2026-01-13'],
      end: { how: 'removed', by: '2026-02-03', dayUnknown: false, carryingClaw: 'bruised' },
      days: { atLeast: 28, atMost: 28 },
    });
    expect(on).toEqual([]);
    expect(daysByFoot).toEqual([{ foot: 'LH', atLeast: 28, certain: true }]);
  });

  it('replaced ends one and begins the next; days on blocks add up', () => {
    const animal = cow([
      visit('2026-01-01', { blocks: [{ ...inner, event: 'fitted' }] }),
      visit('2026-01-31', { blocks: [{ ...inner, event: 'replaced' }] }),
    ]);
    const { spans, on, daysByFoot } = blockTimeline(animal, '2026-02-20');
    expect(spans.map(({ from, end }) => [from, end?.how])).toEqual([
      ['2026-01-01', 'replaced'],
      ['2026-01-31', undefined],
    ]);
    expect(on).toHaveLength(1);
    expect(daysByFoot[0]).toMatchObject({ atLeast: 50, certain: true });
  });

  it('a loss on an unknown day lies between the last look and the day it was found', () => {
    const animal = cow([
      visit('2026-01-01', { blocks: [{ ...inner, event: 'fitted' }] }),
      visit('2026-01-11', { blocks: [{ ...inner, event: 'checked' }] }),
      visit('2026-02-10', { blocks: [{ ...inner, event: 'lost', on: 'unknown' }] }),
    ]);
    const [span] = blockTimeline(animal, '2026-03-01').spans;
    expect(span?.days).toEqual({ atLeast: 10, atMost: 40 });
    expect(span?.end).toMatchObject({ how: 'lost', by: '2026-02-10', dayUnknown: true });
  });

  it('somebody else’s block was on before, nobody knows how long', () => {
    const animal = cow([visit('2026-01-01', { blocks: [{ ...inner, event: 'already on' }] })]);
    const { spans, daysByFoot } = blockTimeline(animal, '2026-01-11');
    expect(spans[0]).toMatchObject({ fitted: false, days: { atLeast: 10 } });
    expect(spans[0]?.days.atMost).toBeUndefined();
    expect(daysByFoot[0]).toEqual({ foot: 'LH', atLeast: 10, certain: false });
  });

  it('blocks of several feet are in the order they were put on', () => {
    const animal = cow([
      visit('2026-01-01', { blocks: [{ foot: 'RH', claw: 'inner', event: 'fitted' }] }),
      visit('2026-01-08', { blocks: [{ foot: 'LH', claw: 'outer', event: 'fitted' }] }),
      visit('2026-01-15', { blocks: [{ ...inner, foot: 'RF', event: 'fitted' }] }),
    ]);
    const { spans, daysByFoot } = blockTimeline(animal, '2026-01-20');
    expect(spans.map(({ foot }) => foot)).toEqual(['RH', 'LH', 'RF']);
    expect(daysByFoot.map(({ foot, atLeast }) => [foot, atLeast])).toEqual([
      ['RF', 5],
      ['LH', 12],
      ['RH', 19],
    ]);
  });

  it('events after the day asked about have not happened', () => {
    const animal = cow([
      visit('2026-01-01', { blocks: [{ ...inner, event: 'fitted' }] }),
      visit('2026-02-01', { blocks: [{ ...inner, event: 'removed' }] }),
    ]);
    expect(blockTimeline(animal, '2026-01-15').on).toHaveLength(1);
    expect(blockTimeline(animal, '2026-02-01').on).toHaveLength(0);
  });
});

describe('wraps', () => {
  it('the farm’s word that the wrap is off ends those that are on, and says nothing of a foot without one', () => {
    const off = (on: string): Partial<Visit> => ({ kind: 'report', 'farm-did': [{ what: 'wrap off', on }] });
    const animal = cow([
      visit('2026-06-01', { wraps: [{ foot: 'RH', event: 'fitted' }] }),
      visit('2026-06-04', off('2026-06-03')),
      visit('2026-06-05', { wraps: [{ foot: 'LH', event: 'fitted' }] }),
      visit('2026-06-08', { wraps: [{ foot: 'LH', event: 'removed' }] }),
      visit('2026-06-09', off('2026-06-09')),
    ]);
    expect(wrapTimeline(animal, '2026-06-10').map(({ foot, from, end }) => [foot, from, end?.how, end?.by])).toEqual([
      ['LH', '2026-06-05', 'removed', '2026-06-08'],
      ['RH', '2026-06-01', 'removed', '2026-06-03'],
    ]);
    expect(wrapTimeline(animal, '2026-06-02').map(({ foot, end }) => [foot, end])).toEqual([['RH', undefined]]);
  }); // prettier-ignore
});

const open = { a: { state: 'open', top: 17, wall: 43 } } as const;
const onSore = (claw: 'inner' | 'outer') =>
  blockTimeline(
    cow([visit('2026-01-06', { found: open, blocks: [{ foot: 'LH', claw, event: 'fitted' }] })]),
    '2026-01-10',
  ).questions;

const two = (foot: 'LH' | 'RH') =>
  blockTimeline(
    cow(
      [
        visit('2026-01-06', {
          blocks: [
            { ...inner, event: 'fitted' },
            { foot, claw: 'outer', event: 'fitted' },
          ],
        }),
      ],
      { lesions: {} },
    ),
    '2026-01-10',
  ).questions.map(({ what }) => what);

describe('questions', () => {
  it('a block under the claw with the open lesion', () => {
    expect(onSore('outer')).toMatchObject([
      { what: 'block-on-the-sore-claw', lesions: ['a'], claw: 'outer' },
    ]);
    expect(onSore('inner')).toEqual([]);
  });

  it('two blocks on one foot, and not on two', () => {
    expect(two('LH')).toEqual(['two-blocks-on-one-foot']);
    expect(two('RH')).toEqual([]);
  });

  it('two blocks on one foot are asked about at the later one, whichever claw it is under', () => {
    const [early, late] = ['2026-01-06', '2026-01-13'];
    const asked = (first: 'inner' | 'outer', second: 'inner' | 'outer') =>
      blockTimeline(
        cow(
          [
            visit(early, { blocks: [{ foot: 'LH', claw: first, event: 'fitted' }] }),
            visit(late, { blocks: [{ foot: 'LH', claw: second, event: 'fitted' }] }),
          ],
          { lesions: {} },
        ),
        '2026-01-20',
      ).questions;
    const path = ['visits', 1, 'blocks', 0];
    const question = { what: 'two-blocks-on-one-foot', date: late, foot: 'LH', lesions: [], path };
    expect(asked('inner', 'outer')).toEqual([question]);
    expect(asked('outer', 'inner')).toEqual([question]);
  });

  it('no claw is sound from the day the second one was found open, however many are open since', () => {
    const heel = { code: 'WL', foot: 'LH', line: 'heel' } as const;
    const lesions = {
      a: { ...heel, claw: 'outer' },
      b: { ...heel, claw: 'inner' },
      c: { ...heel, claw: 'inner', line: 'abaxial' },
    } as const;
    const found = (name: string) => ({ found: { [name]: { state: 'open' as const } } });
    const animal = cow(
      [visit('2026-01-06', found('a')), visit('2026-01-13', found('c')), visit('2026-01-20', found('b'))],
      { lesions },
    );
    expect(blockTimeline(animal, '2026-01-27').questions).toEqual([
      {
        what: 'no-sound-claw',
        date: '2026-01-13',
        foot: 'LH',
        lesions: ['a', 'b', 'c'],
        path: ['visits', 1, 'found'],
      },
    ]);
  });

  it('both claws open leave no claw to carry one; one of them healed leaves one', () => {
    const lesions = {
      a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
      b: { code: 'WLF', foot: 'LH', claw: 'inner', line: 'dorsal' },
    } as const;
    const both = (state: 'open' | 'healed') =>
      blockTimeline(
        cow([visit('2026-01-06', { found: { a: { state: 'open' }, b: { state } } })], { lesions }),
        '2026-01-10',
      ).questions.map(({ what }) => what);
    expect(both('open')).toEqual(['no-sound-claw']);
    expect(both('healed')).toEqual([]);
  });
});

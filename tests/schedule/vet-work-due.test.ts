import { describe, expect, it } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import type { Visit } from '../../src/record/visit.js';
import type { VetTask } from '../../src/record/words.js';
import { cow, visit, workOut } from './a-case.js';

const day = '2026-06-02';
const wrapped = visit(day, {
  wraps: [{ foot: 'RH', event: 'fitted' }],
  vet: { asked: day, why: 'pus' },
});
const answer = (what: VetTask, on: string, date = '2026-06-03') =>
  visit(date, {
    kind: 'report',
    'vet-answer': { to: day, by: 'P. Wexmarrow', reply: 'seen', does: [{ what, on }] },
  });
const due = (animal: Animal, today: string, ...whats: string[]) =>
  workOut(animal, today)
    .due.filter(({ what }) => whats.includes(what))
    .map(({ what, who, by, standing }) => [what, who, by, standing]);

describe('the vet takes the wrap off himself', () => {
  const vets = cow([wrapped, answer('wrap off', '2026-06-08')]);
  const all = (animal: Animal, today: string) => due(animal, today, 'wrap-off', 'vet-work', 'farm-task');

  it('it is his item until his day is over, though the standing interval is shorter', () => {
    expect(all(cow([wrapped]), '2026-06-08')).toEqual([['wrap-off', 'farm', '2026-06-05', 'open']]);
    for (const today of ['2026-06-04', '2026-06-08'])
      expect(all(vets, today)).toEqual([['vet-work', 'vet', '2026-06-08', 'open']]);
  });

  it('with nothing recorded after his day, both are asked for: nothing may be lost between the two', () => {
    expect(all(vets, '2026-06-09')).toEqual([
      ['wrap-off', 'farm', '2026-06-05', 'open'],
      ['vet-work', 'vet', '2026-06-08', 'overdue'],
    ]);
  });

  it('it wins over the farm’s own day for the same task, asked before or after he answered', () => {
    const ask = { 'ask-farm': [{ what: 'wrap off' as const, by: '2026-06-05' }] };
    const before = cow([{ ...wrapped, ...ask }, answer('wrap off', '2026-06-08')]);
    const after = cow([wrapped, answer('wrap off', '2026-06-08'), visit('2026-06-04', { kind: 'report', ...ask })]); // prettier-ignore
    for (const animal of [before, after])
      expect(all(animal, '2026-06-06')).toEqual([['vet-work', 'vet', '2026-06-08', 'open']]);
    expect(all(cow([{ ...wrapped, ...ask }]), '2026-06-06')).toEqual([['farm-task', 'farm', '2026-06-05', 'overdue']]); // prettier-ignore
  });

  const off: Partial<Visit> = { kind: 'report', wraps: [{ foot: 'RH', event: 'removed', on: '2026-06-08' }] };

  it('once it is off it is done, and one put on later is the farm’s again', () => {
    const done = [wrapped, answer('wrap off', '2026-06-08'), visit('2026-06-09', off)];
    expect(all(cow(done), '2026-06-10')).toEqual([['vet-work', 'vet', '2026-06-08', 'done']]);
    const again = visit('2026-06-12', { wraps: [{ foot: 'RH', event: 'fitted' }] });
    expect(all(cow([...done, again]), '2026-06-12')).toEqual([
      ['vet-work', 'vet', '2026-06-08', 'done'],
      ['wrap-off', 'farm', '2026-06-15', 'open'],
    ]);
  });

  it('off the day he answered is done; one put on the day he comes is the next one, unless that is the day he said so', () => {
    const early: Partial<Visit> = { kind: 'report', wraps: [{ foot: 'RH', event: 'removed', on: '2026-06-03' }] };
    const [said, then] = [answer('wrap off', '2026-06-08'), visit('2026-06-04', early)];
    expect(all(cow([wrapped, said, then]), '2026-06-04')).toEqual([['vet-work', 'vet', '2026-06-08', 'done']]);
    const put = (on: string): Visit => visit(on, { wraps: [{ foot: 'RH', event: 'fitted' }] });
    const asked = visit(day, { vet: { asked: day, why: 'pus' } });
    expect(all(cow([asked, said]), '2026-06-08')).toEqual([['vet-work', 'vet', '2026-06-08', 'open']]);
    expect(all(cow([asked, said]), '2026-06-09')).toEqual([['vet-work', 'vet', '2026-06-08', 'done']]);
    const next = cow([asked, said, put('2026-06-08')]);
    expect(all(next, '2026-06-09')).toEqual([
      ['vet-work', 'vet', '2026-06-08', 'done'],
      ['wrap-off', 'farm', '2026-06-11', 'open'],
    ]);
    const same = cow([asked, put('2026-06-03'), answer('wrap off', '2026-06-03')]);
    expect(all(same, '2026-06-03')).toEqual([['vet-work', 'vet', '2026-06-03', 'open']]);
    expect(all(same, '2026-06-04').map(([what, , , standing]) => [what, standing])).toEqual([
      ['vet-work', 'overdue'],
      ['wrap-off', 'open'],
    ]);
  }); // prettier-ignore

  it('another task of his leaves the wrap to the farm', () => {
    const other = cow([wrapped, answer('block off', '2026-06-08')]);
    expect(due(other, '2026-06-04', 'wrap-off')).toEqual([['wrap-off', 'farm', '2026-06-05', 'open']]);
  });

  it('so it stays on a closed case', () => {
    const closed = { ...vets, episodes: [{ ended: '2026-06-04', result: 'lost to follow-up' as const }] };
    expect(all(closed, '2026-06-05')).toEqual([['vet-work', 'vet', '2026-06-08', 'open']]);
  });
});

describe('other work of his', () => {
  it.each([
    ['block off', 'block-off', { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }],
    ['recheck', 'recheck', { found: { a: { state: 'open', top: 17 } } }],
    ['score her walk', 'gait-rescore', { gait: 2 }],
  ] as const)('%s takes the place of %s', (what, item, more) => {
    const before = visit(day, { vet: { asked: day, why: 'x' }, ...(more as Partial<Visit>) });
    const today = '2026-06-04';
    expect(due(cow([before]), today, item)).toHaveLength(1);
    expect(due(cow([before, answer(what, '2026-06-20')]), today, item)).toEqual([]);
  });

  it('a day the trimmer wrote for the recheck is beside the vet’s', () => {
    const written = visit(day, { found: { a: { state: 'open', top: 17 } }, recheck: '2026-06-10' });
    expect(due(cow([written, answer('recheck', '2026-06-20')]), '2026-06-04', 'recheck')).toHaveLength(1);
  });

  it('counts as done once a report of his day is on file', () => {
    const animal = cow([wrapped, answer('recheck', '2026-06-08'), visit('2026-06-09', { kind: 'report' })]);
    expect(due(animal, '2026-06-10', 'vet-work')).toEqual([['vet-work', 'vet', '2026-06-08', 'done']]);
  });
});

describe('a day he gave that has gone by', () => {
  const ring = (animal: Animal, today: string) => due(animal, today, 'vet-ring-again');

  it('nothing recorded of it: ring again the next morning, not on the day', () => {
    const vets = cow([wrapped, answer('recheck', '2026-06-08')]);
    expect(ring(vets, '2026-06-08')).toEqual([]);
    expect(ring(vets, '2026-06-09')).toEqual([['vet-ring-again', 'farm', '2026-06-09', 'open']]);
    expect(ring(vets, '2026-06-10')).toEqual([['vet-ring-again', 'farm', '2026-06-09', 'overdue']]);
  });

  it('two things he was to do on one day are one call', () => {
    const does = [
      { what: 'recheck' as const, on: '2026-06-08' },
      { what: 'score her walk' as const, on: '2026-06-08' },
    ];
    const both = visit('2026-06-03', {
      kind: 'report',
      'vet-answer': { to: day, by: 'P. Wexmarrow', reply: 'seen', does },
    });
    expect(ring(cow([wrapped, both]), '2026-06-09')).toHaveLength(1);
  });

  it('once anything of his day is on file, no more', () => {
    const told = visit('2026-06-08', { kind: 'report', note: 'the vet was here' });
    expect(ring(cow([wrapped, answer('recheck', '2026-06-08'), told]), '2026-06-10')).toEqual([]);
  });
});

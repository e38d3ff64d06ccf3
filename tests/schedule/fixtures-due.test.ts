import { describe, expect, it } from 'vitest';
import type { Animal, Episode } from '../../src/record/animal.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, visit, workOut } from './a-case.js';

const day = '2026-04-01';
const [foot, claw] = ['LH', 'inner'] as const;
const put: Partial<Visit> = {
  gait: 1,
  blocks: [{ foot, claw, event: 'fitted' }],
  wraps: [{ foot: 'RH', event: 'fitted' }],
};
const fixtures = (animal: Animal, today = '2026-06-17') =>
  workOut(animal, today).due.filter(({ what }) => what.startsWith('block') || what.startsWith('wrap'));
const closed = (result: NonNullable<Episode['result']>) => ({ episodes: [{ ended: '2026-05-01', result }] });

describe('a closed case', () => {
  it.each(['sound', 'recovered, not lame', 'lost to follow-up'] as const)(
    '%s: block and wrap stay due until they are recorded off',
    (result) => {
      const left = cow([visit(day, put)], closed(result));
      expect(fixtures(left).map(({ what, standing }) => [what, standing])).toEqual([
        ['wrap-off', 'overdue'],
        ['block-off', 'overdue'],
      ]);
      const off = visit('2026-05-20', {
        kind: 'report',
        blocks: [{ foot, claw, event: 'removed' }],
        'farm-did': [{ what: 'wrap off', on: '2026-05-20' }],
      });
      expect(fixtures(cow([visit(day, put), off], closed(result)))).toEqual([]);
    },
  );

  it.each(['culled', 'sold', 'moved', 'died', 'put down'] as const)(
    '%s: nobody here can take them off any more',
    (result) => {
      expect(fixtures(cow([visit(day, put)], closed(result)))).toEqual([]);
    },
  );

  it('a wrap the farm was asked to take off is a job again, since its task is listed no more', () => {
    const asked = { ...put, 'ask-farm': [{ what: 'wrap off' as const, by: '2026-04-04' }] };
    expect(fixtures(cow([visit(day, asked)])).map(({ what }) => what)).toEqual(['block-look', 'block-off']);
    expect(fixtures(cow([visit(day, asked)], closed('sound'))).map(({ what }) => what)).toContain('wrap-off');
  });
});

describe('off at once', () => {
  const later = (more: Partial<Visit>) =>
    fixtures(cow([visit(day, put), visit('2026-04-03', more)]), '2026-04-03').map(({ what, by, why }) => [
      what,
      by,
      why.key.replace('due.why.', ''),
    ]);

  it('the foot swells above it', () => {
    const swollen = { signs: ['swollen above foot' as const] };
    expect(later({ feet: { LH: swollen } })).toContainEqual(['block-off', '2026-04-03', 'block-off-at-once-swollen']); // prettier-ignore
    expect(later({ feet: { LH: swollen } })).toContainEqual(['wrap-off', '2026-04-04', 'wrap-off']);
    expect(later({ kind: 'report', feet: { RH: swollen } })).toContainEqual(['wrap-off', '2026-04-03', 'wrap-off-at-once-swollen']); // prettier-ignore
  });

  it('not where it was swollen before it went on, or is no more', () => {
    const signs = { LH: { signs: ['swollen above foot' as const] } };
    const before = cow([visit(day, { ...put, feet: signs })]);
    expect(fixtures(before, '2026-04-03').map(({ why }) => why.key)).toContain('due.why.block-off');
    const over = cow([
      visit(day, put),
      visit('2026-04-03', { feet: signs }),
      visit('2026-04-05', { feet: { LH: { lifted: true, gone: ['swollen above foot'] } } }),
      visit('2026-04-12', { feet: { LH: { lifted: true, gone: ['swollen above foot'] } } }),
    ]);
    expect(fixtures(over, '2026-04-13').map(({ why }) => why.key)).toContain('due.why.block-off');
  });

  it('she walks worse than when it went on; the same or better is no reason', () => {
    expect(later({ kind: 'report', gait: 2 })).toEqual([
      ['block-off', '2026-04-03', 'block-off-at-once-worse'],
      ['wrap-off', '2026-04-03', 'wrap-off-at-once-worse'],
    ]);
    for (const gait of [0, 1])
      expect(later({ kind: 'report', gait }).map(([, , why]) => why)).toEqual([
        'wrap-off',
        'block-look',
        'block-off',
      ]);
  });
});

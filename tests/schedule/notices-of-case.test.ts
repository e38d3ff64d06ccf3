import { describe, expect, it } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import type { AnimalSign, Sign } from '../../src/record/words.js';
import { noticeRules, type NoticeRuleId } from '../../src/reference/notices.js';
import { cow, visit, workOut } from './a-case.js';

const today = '2026-06-10';
const standing = (animal: Animal, on = today) =>
  workOut(animal, on)
    .notices.filter((notice) => notice.standing)
    .map(({ rule }) => rule);

const day = '2026-06-02';
const signs = (...some: Sign[]) =>
  cow([visit(day, { feet: { LH: { lifted: true, signs: some } } })], { lesions: {} });
const ill = (...some: AnimalSign[]) => cow([visit(day, { signs: some })], { lesions: {} });
const wall = (...found: [string, number, Partial<Animal['visits'][number]>?][]) =>
  cow(
    found.map(([date, top, more]) =>
      visit(date, {
        found: { a: { state: 'open', top, wall: 43, tool: 'calliper', 'top-found': 'seen' } },
        ...more,
      }),
    ),
  );
const ulcer = (...visits: [string, Sign[], Partial<Animal['visits'][number]>?][]) =>
  cow(
    visits.map(([date, some, more]) =>
      visit(date, { found: { a: { state: 'open', width: 14, signs: some } }, ...more }),
    ),
    { lesions: { a: { code: 'SU', foot: 'RH', claw: 'outer' } } },
  );
const walked = (...scores: [string, number, Partial<Animal['visits'][number]>?][]) =>
  cow(
    scores.map(([date, gait, more]) =>
      visit(date, { gait, feet: { LH: { lifted: true, signs: ['smell'] } }, ...more }),
    ),
  );
const block = (event: 'fitted' | 'removed') => ({ blocks: [{ foot: 'LH', claw: 'inner', event } as const] });
const lasting = cow([
  visit('2026-05-05', { found: { a: { state: 'open', top: 0, wall: 43, tool: 'calliper' } } }),
  visit(day, { found: { a: { state: 'lasting', top: 0, wall: 43, tool: 'calliper' } } }),
]);
const sick = (code: 'IP' | 'TN' | 'SW', state: 'present' | 'open' | 'healed') =>
  cow([visit(day, { found: { a: { state } } })], { lesions: { a: { code, foot: 'RH' } } });
const twoClaws = (state: 'open' | 'healed') =>
  cow([visit(day, { found: { a: { state: 'open' }, b: { state } } })], {
    lesions: {
      a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
      b: { code: 'WLF', foot: 'LH', claw: 'inner', line: 'dorsal' },
    },
  });
const feetSore = (third: 'M2' | 'M4') =>
  cow(
    [
      visit(day, {
        found: { a: { state: 'open', top: 20 }, b: { state: 'open', width: 9 }, c: { stage: third } },
      }),
    ],
    {
      lesions: {
        a: { code: 'HFH', foot: 'LH', claw: 'outer', line: 'dorsal' },
        b: { code: 'SU', foot: 'RF', claw: 'inner' },
        c: { code: 'DD', foot: 'RH' },
      },
    },
  );

/** A record that raises the rule, and one next to it that does not. */
const cases: Partial<Record<NoticeRuleId, { raises: Animal; nearMiss: Animal }>> = {
  blisters: { raises: signs('blisters'), nearMiss: signs('exposed corium') },
  'swollen-above-foot': { raises: signs('swollen above foot'), nearMiss: signs('swollen heel') },
  'swollen-above-wrap': {
    raises: cow(
      [
        visit('2026-05-30', { wraps: [{ foot: 'LH', event: 'fitted' }] }),
        visit(day, { feet: { LH: { signs: ['swollen above foot'] } } }),
      ],
      { lesions: {} },
    ),
    nearMiss: cow(
      [
        visit('2026-05-30', { wraps: [{ foot: 'LH', event: 'fitted' }] }),
        visit('2026-06-01', { kind: 'report', 'farm-did': [{ what: 'wrap off', on: '2026-06-01' }] }),
        visit(day, { feet: { LH: { signs: ['swollen above foot'] } } }),
      ],
      { lesions: {} },
    ),
  },
  'swollen-and-hot': { raises: signs('heat', 'swollen coronet'), nearMiss: signs('swollen coronet') },
  'pus-near-coronet': {
    raises: cow([visit(day, { found: { a: { state: 'open', top: 10, signs: ['pus'] } } })]),
    nearMiss: cow([visit(day, { found: { a: { state: 'open', top: 11, signs: ['pus'] } } })]),
  },
  'pus-with-swelling': {
    raises: signs('pus', 'swollen heel'),
    nearMiss: signs('pus', 'heat'),
  },
  'pus-top-not-reached': {
    raises: cow([visit(day, { found: { a: { state: 'open', 'top-found': 'higher', signs: ['pus'] } } })]),
    nearMiss: cow([visit(day, { found: { a: { state: 'open', 'top-found': 'higher', signs: ['smell'] } } })]),
  },
  'coronet-hot-or-lame': {
    raises: wall(['2026-05-05', 9], [day, 0, { gait: 2 }]),
    nearMiss: wall(['2026-05-05', 9], [day, 0, { gait: 1 }]),
  },
  'tendon-or-joint': { raises: ill('joint or tendon'), nearMiss: ill('maggots') },
  'bleeding-not-stopping': { raises: ill('bleeding not stopped'), nearMiss: signs('bleeding') },
  'off-feed-hot-or-down': { raises: ill('down'), nearMiss: ill('maggots') },
  maggots: { raises: ill('maggots'), nearMiss: ill('down') },
  bone: { raises: signs('bone'), nearMiss: signs('exposed corium') },
  'toe-turned-up': { raises: signs('toe turned up'), nearMiss: signs('heat') },
  'not-bearing': { raises: signs('not bearing'), nearMiss: signs('heat') },
  'severest-score': { raises: walked([day, 3]), nearMiss: walked([day, 2]) },
  'worse-after-work': {
    raises: walked(['2026-05-26', 1, { trimmed: ['LH'] }], [day, 2]),
    nearMiss: walked(['2026-05-25', 1, { trimmed: ['LH'] }], [day, 2]),
  },
  'lame-nothing-found': {
    raises: cow([visit(day, { gait: 2, feet: { LH: { lifted: true } } })], { lesions: {} }),
    nearMiss: cow([visit(day, { gait: 2, feet: { LH: { lifted: true, signs: ['soft horn'] } } })], {
      lesions: {},
    }),
  },
  'new-foul': { raises: sick('IP', 'present'), nearMiss: sick('SW', 'present') },
  necrosis: { raises: sick('TN', 'open'), nearMiss: sick('TN', 'healed') },
  infected: {
    raises: cow([visit(day, { found: { a: { state: 'open', top: 20, infected: true } } })]),
    nearMiss: cow([visit(day, { found: { a: { state: 'open', top: 20, signs: ['smell'] } } })]),
  },
  'raw-two-visits': {
    raises: ulcer(['2026-05-19', ['exposed corium']], [day, ['proud flesh']]),
    nearMiss: ulcer(['2026-05-19', ['exposed corium']], [day, ['undermined']]),
  },
  'pus-after-opening': {
    raises: ulcer(['2026-05-19', ['pus']], [day, ['pus']]),
    nearMiss: ulcer(['2026-05-20', ['pus']], [day, ['pus']]),
  },
  'at-coronet': { raises: wall(['2026-05-05', 9], [day, 0]), nearMiss: wall(['2026-05-05', 9], [day, 14]) },
  'ran-up': {
    raises: wall(['2026-05-05', 30], [day, 12, { feet: { LH: { signs: ['swollen heel'] } } }]),
    nearMiss: wall(['2026-05-05', 30], [day, 12]),
  },
  held: {
    raises: wall(['2026-01-06', 20], ['2026-02-17', 20], ['2026-03-31', 20], ['2026-05-12', 20], [day, 20]),
    nearMiss: wall(['2026-01-06', 12], ['2026-02-17', 20], ['2026-03-31', 28], ['2026-05-12', 36], [day, 40]),
  },
  'lame-off-block': {
    raises: walked(['2026-05-19', 2], [day, 2]),
    nearMiss: walked(['2026-05-20', 2], [day, 2]),
  },
  'long-on-blocks': {
    raises: walked(['2026-03-17', 1, block('fitted')], [day, 1]),
    nearMiss: walked(['2026-03-18', 1, block('fitted')], [day, 1]),
  },
  'no-sound-claw': { raises: twoClaws('open'), nearMiss: twoClaws('healed') },
  'several-feet': { raises: feetSore('M2'), nearMiss: feetSore('M4') },
};

describe.each(Object.entries(cases))('%s', (rule, { raises, nearMiss }) => {
  it('is raised by its record', () => {
    expect(standing(raises)).toContain(rule);
  });
  it('is not raised by its near miss', () => {
    expect(standing(nearMiss)).not.toContain(rule);
  });
});

it('every rule that is worked out from the record is tried here', () => {
  // Several animals are a farm's: tests/schedule/stop-work.test.ts.
  const worked = noticeRules
    .filter(({ from, id }) => from === 'record' && id !== 'several-animals-ill')
    .map(({ id }) => id);
  expect(worked.filter((id) => !(id in cases))).toEqual([]);
});

it.each<[NoticeRuleId, object]>([
  ['swollen-above-foot', { foot: 'LH', feet: ['LH'], seen: day }],
  ['swollen-above-wrap', { foot: 'LH' }],
  ['swollen-and-hot', { foot: 'LH' }],
  ['pus-near-coronet', { foot: 'LH', lesion: 'a', evidence: { key: 'notice.evidence.pus-near-coronet.tract', values: { top: 10 } } }],
  ['pus-with-swelling', { foot: 'LH' }],
  ['pus-top-not-reached', { foot: 'LH', lesion: 'a' }],
  ['coronet-hot-or-lame', { foot: 'LH', lesion: 'a' }],
  ['bone', { foot: 'LH' }],
  ['toe-turned-up', { foot: 'LH' }],
  ['not-bearing', { foot: 'LH' }],
  ['severest-score', { feet: ['LH'], evidence: { values: { score: 3 } } }],
  ['worse-after-work', { evidence: { values: { score: 2, before: 1, day: '2026-05-26' } } }],
  ['new-foul', { foot: 'RH', lesion: 'a' }],
  ['necrosis', { foot: 'RH', lesion: 'a' }],
  ['infected', { foot: 'LH', lesion: 'a' }],
  ['raw-two-visits', { foot: 'RH', lesion: 'a', evidence: { values: { since: '2026-05-19', day } } }],
  ['pus-after-opening', { foot: 'RH', evidence: { values: { since: '2026-05-19', days: 14 } } }],
  ['at-coronet', { foot: 'LH', lesion: 'a', evidence: { key: 'notice.evidence.at-coronet.once' } }],
  ['ran-up', { foot: 'LH', lesion: 'a', evidence: { key: 'notice.evidence.ran-up.with-signs' } }],
  ['lame-off-block', { evidence: { key: 'notice.evidence.lame-off-block.no-block', values: { since: '2026-05-19', day } } }],
  ['long-on-blocks', { foot: 'LH', raised: today, evidence: { values: { days: 85 } } }],
  ['no-sound-claw', { foot: 'LH' }],
  ['several-feet', { evidence: { values: { feet: 3 } } }],
])('%s is said once, of its foot and lesion, with the days and numbers it is based on', (rule, of) => {
  const raised = workOut(cases[rule]!.raises, today).notices.filter((notice) => notice.rule === rule);
  expect(raised).toHaveLength(1);
  expect(raised[0]).toMatchObject({ standing: true, ...of });
}); // prettier-ignore

it('pus at the coronet itself needs no length', () => {
  const animal = cow([visit(day, { found: { a: { state: 'open', signs: ['pus'] } } })], {
    lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel', site: 'coronet' } },
  });
  const [notice] = workOut(animal, today).notices.filter(({ rule }) => rule === 'pus-near-coronet');
  expect(notice?.evidence).toMatchObject({
    key: 'notice.evidence.pus-near-coronet.coronet',
    values: { lesion: 'a', top: '' },
  });
});

describe('the ran-up rule', () => {
  it('is raised by two running without a sign, and by one it is not', () => {
    expect(standing(wall(['2026-04-07', 38], ['2026-05-05', 20], [day, 4]))).toContain('ran-up');
    expect(standing(wall(['2026-04-07', 38], ['2026-05-05', 20], [day, 25]))).not.toContain('ran-up');
  });
});

describe('the life of a notice', () => {
  const hot = { LH: { lifted: true, signs: ['heat', 'swollen heel'] as Sign[] } };
  const cool = { LH: { lifted: true, gone: ['heat'] as Sign[] } };

  it('keeps the day it was first raised, through a visit that did not look at the foot', () => {
    const animal = cow([
      visit('2026-05-05', { feet: hot }),
      visit('2026-05-12', { kind: 'report', note: 'eating' }),
      visit(day, { feet: hot }),
    ]);
    expect(workOut(animal, today).notices).toMatchObject([
      { rule: 'swollen-and-hot', raised: '2026-05-05', standing: true },
    ]);
  });

  it('falls when a later look no longer bears it out, and is raised anew after', () => {
    const animal = cow([
      visit('2026-05-05', { feet: hot }),
      visit('2026-05-12', { feet: cool }),
      visit(day, { feet: hot }),
    ]);
    const told = workOut(animal, today).notices.filter(({ rule }) => rule === 'swollen-and-hot');
    expect(told.map(({ raised, standing: stands }) => [raised, stands])).toEqual([
      ['2026-05-05', false],
      ['2026-06-02', true],
    ]);
  });

  it('carries the asking and the answer, and is not asked again', () => {
    const asked = cow([
      visit(day, { feet: hot, vet: { asked: day, why: 'hot heel', about: ['LH'] } }),
      visit('2026-06-04', { kind: 'report', 'vet-answer': { to: day, by: 'the practice', reply: 'seen' } }),
    ]);
    const { notices, due } = workOut(asked, today);
    expect(notices[0]).toMatchObject({
      standing: true,
      asked: { on: day, why: 'hot heel' },
      answered: { on: '2026-06-04', by: 'the practice', reply: 'seen' },
    });
    expect(due.filter(({ what }) => what === 'vet-ask' || what === 'vet-answer')).toEqual([]);
  });

  it('an asking how she walks is one of her walk, not of a sign; one of a foot or sign is of what is there', () => {
    const asked = (about: string) =>
      workOut(cow([visit(day, { gait: 3, feet: { LH: { signs: ['bone'] } }, vet: { asked: day, why: 'x', about: [about] } })], { lesions: {} }), today)
        .notices.filter((notice) => notice.asked !== undefined)
        .map(({ rule }) => rule);
    expect(asked('lame')).toEqual(['severest-score']);
    expect(asked('bone')).toEqual(['bone']);
    expect(asked('LH')).toEqual(['bone', 'severest-score']);
    expect(asked('RF')).toEqual([]);
  }); // prettier-ignore

  it('asked twice it is the first asking that counts, unless the other was answered', () => {
    const ask = (asked: string) =>
      visit(asked, { kind: 'report', vet: { asked, why: 'x', about: ['bone'] } });
    const visits = [visit(day, { feet: { LH: { signs: ['bone'] } } }), ask('2026-06-03'), ask('2026-06-04')];
    const asked = (...more: typeof visits) =>
      workOut(cow([...visits, ...more], { lesions: {} }), today).notices[0]?.asked?.on;
    expect(asked()).toBe('2026-06-03');
    const reply = { 'vet-answer': { to: '2026-06-04', by: 'the practice', reply: 'we come' } };
    expect(asked(visit('2026-06-05', { kind: 'report', ...reply }))).toBe('2026-06-04');
  });

  it('an asking before it was raised is no asking of it', () => {
    const animal = cow([
      visit('2026-05-05', { vet: { asked: '2026-05-05', why: 'thin' } }),
      visit(day, { feet: hot }),
    ]);
    expect(workOut(animal, today).notices[0]?.asked).toBeUndefined();
  });

  it('of a closed case none is in force', () => {
    const animal = cow([visit(day, { feet: hot })], { episodes: [{ ended: '2026-06-05', result: 'sold' }] });
    expect(workOut(animal, today).notices.map(({ standing: stands }) => stands)).toEqual([false]);
  });

  it('most urgent first', () => {
    const animal = cow([
      visit(day, {
        feet: { LH: { signs: ['blisters', 'bone'] } },
        found: { a: { state: 'open', infected: true } },
      }),
    ]);
    expect(workOut(animal, today).notices.map(({ urgency }) => urgency)).toEqual([
      'stop-work',
      'same-day',
      'notice',
    ]);
  });
});

it('lame off the block twice is not undone by a walk on it between', () => {
  const between = (more: Partial<Animal['visits'][number]>) =>
    standing(walked(['2026-05-19', 2], ['2026-05-26', 1, more], [day, 2]));
  expect(between({ 'on-block': true })).toContain('lame-off-block');
  expect(between({ 'on-block': false })).not.toContain('lame-off-block');
});

it.each<[string, boolean, Partial<Animal['visits'][number]>]>([
  ['nothing done', false, {}],
  ['a foot trimmed', true, { trimmed: ['RF'] }],
  ['a lesion cut back', true, { 'cut-back': ['a'] }],
  ['a block put on', true, block('fitted')],
  ['a block changed', true, { blocks: [{ foot: 'LH', claw: 'inner', event: 'replaced' }] }],
  ['a block looked at', false, { blocks: [{ foot: 'LH', claw: 'inner', event: 'checked' }] }],
  ['a block taken off', false, block('removed')],
])('walking worse a week after %s: a notice: %s', (_, raises, work) => {
  const worse = (score: number) => standing(walked(['2026-05-26', 1, work], [day, score]));
  expect(worse(2).includes('worse-after-work')).toBe(raises);
  expect(worse(1)).not.toContain('worse-after-work');
});

it('lame with nothing found ends after two lifts a week apart at which she is scored below lame', () => {
  const after = (...more: [string, Parameters<typeof visit>[1]][]) =>
    standing(
      cow([visit('2026-05-05', { gait: 2, feet: { LH: { lifted: true } } }), ...more.map((one) => visit(...one))], {
        lesions: {},
      }),
    ).includes('lame-nothing-found');
  const lift = { gait: 1, feet: { LH: { lifted: true } } };
  expect(after(['2026-05-12', lift], ['2026-05-19', lift])).toBe(false);
  expect(after(['2026-05-12', lift], ['2026-05-18', lift])).toBe(true);
  expect(after(['2026-05-12', lift])).toBe(true);
  const [report, unscored] = [{ ...lift, kind: 'report' as const }, { feet: lift.feet }];
  expect(after(['2026-05-12', report], ['2026-05-19', report], ['2026-05-26', report])).toBe(true);
  expect(after(['2026-05-12', unscored], ['2026-05-19', unscored], ['2026-05-26', unscored])).toBe(true);
}); // prettier-ignore

it('84 days on blocks are not too many, 85 are, and it is raised on that day', () => {
  const animal = walked(['2026-03-01', 1, block('fitted')]);
  expect(standing(animal, '2026-05-24')).not.toContain('long-on-blocks');
  expect(standing(animal, '2026-05-25')).toContain('long-on-blocks');
  expect(workOut(animal, today).notices.find(({ rule }) => rule === 'long-on-blocks')?.raised).toBe(
    '2026-05-25',
  );
});

it('a fault found lasting is at the coronet by its nature: that notice no longer applies', () => {
  expect(standing(lasting, '2026-05-20')).toContain('at-coronet');
  expect(standing(lasting)).not.toContain('at-coronet');
});

it('at the coronet ends without a new length only where that foot was lifted and she walks sound off the block', () => {
  const after = (more: Parameters<typeof visit>[1]) =>
    standing(cow([...wall(['2026-05-05', 9], ['2026-05-12', 0]).visits, visit(day, more)]));
  expect(after({ trimmed: ['LH'], gait: 1 })).not.toContain('at-coronet');
  expect(after({ trimmed: ['RH'], gait: 1 })).toContain('at-coronet');
  expect(after({ trimmed: ['LH'], gait: 2 })).toContain('at-coronet');
  expect(after({ trimmed: ['LH'] })).toContain('at-coronet');
  expect(after({ kind: 'report', gait: 1 })).toContain('at-coronet');
});

it('an answer closes of several signs only those it was about', () => {
  const animal = (about: AnimalSign[]) =>
    cow(
      [
        visit('2026-05-28', { signs: ['off feed', 'slobbering'], vet: { asked: '2026-05-28', why: 'ill', about } }),
        visit(day, { kind: 'report', 'vet-answer': { to: '2026-05-28', by: 'P. Wexmarrow', reply: 'seen', closes: true } }),
      ],
      { lesions: {} },
    ); // prettier-ignore
  expect(standing(animal(['off feed']))).toContain('off-feed-hot-or-down');
  expect(standing(animal(['off feed', 'slobbering']))).not.toContain('off-feed-hot-or-down');
});

it('a dead toe by its code lasts through a report, until it is found healed', () => {
  const toe = (...more: Parameters<typeof visit>[]) =>
    cow([visit('2026-05-20', { found: { a: { state: 'open' } } }), ...more.map((one) => visit(...one))], {
      lesions: { a: { code: 'TN', foot: 'LF', claw: 'outer' } },
    });
  expect(standing(toe([day, { kind: 'report' }]))).toContain('necrosis');
  expect(standing(toe([day, { found: { a: { state: 'healed' } } }]))).not.toContain('necrosis');
});

import { describe, expect, it } from 'vitest';
import { episodesOf } from '../../src/healing/episode.js';
import { looksAt } from '../../src/healing/looks-at-lesion.js';
import { standingOrder } from '../../src/healing/standing.js';
import { worstFirst } from '../../src/healing/worst-first.js';
import type { Animal } from '../../src/record/animal.js';
import type { Found } from '../../src/record/visit.js';
import type { LesionCode } from '../../src/record/words.js';
import { cow, visit, workOut } from '../schedule/a-case.js';

const today = '2026-06-10';
const at = (animal: Animal, on = today) => workOut(animal, on).standing;

const wall = (...found: [string, Found, Partial<Animal['visits'][number]>?][]) =>
  cow(
    found.map(([date, one, more]) =>
      visit(date, {
        found: { a: { state: 'open', tool: 'calliper', 'top-found': 'seen', ...one } },
        ...more,
      }),
    ),
  );
const word = (animal: Animal, on?: string) => at(animal, on).lesions[0]?.standing;
const of = (code: LesionCode, ...found: [string, Found][]) =>
  cow(
    found.map(([date, one]) => visit(date, { found: { a: one } })),
    { lesions: { a: { code, foot: 'RH', ...(code === 'DD' ? {} : { claw: 'outer' }) } } },
  );

describe('a gap in the wall', () => {
  const base: [string, Found] = ['2026-05-05', { top: 20, wall: 43, width: 9 }];
  it.each<[string, Animal, string]>([
    ['measured once', wall(base), 'open'],
    ['never measured', wall(['2026-05-05', {}]), 'not-measured'],
    ['grew', wall(base, ['2026-06-02', { top: 26 }]), 'growing-down'],
    ['grew less than can be told', wall(base, ['2026-05-12', { top: 22 }]), 'no-change-shown'],
    ['ran up', wall(base, ['2026-06-02', { top: 5 }]), 'ran-up'],
    ['said to have run up, without a length', wall(base, ['2026-06-02', { 'ran-up': true }]), 'ran-up'],
    ['reached the coronet', wall(base, ['2026-06-02', { top: 0 }]), 'at-coronet'],
    [
      'twice at the coronet',
      wall(['2026-05-05', { top: 0 }], ['2026-06-02', { top: 0 }]),
      'still-at-coronet',
    ],
    [
      'not yet a reading’s error away from the coronet, 2 mm by calliper',
      wall(['2026-05-05', { top: 0 }], ['2026-05-12', { top: 1.5 }]),
      'at-coronet',
    ],
    ['away from it', wall(['2026-05-05', { top: 0 }], ['2026-05-19', { top: 2.5 }]), 'no-change-shown'],
    ['opened further', wall(base, ['2026-06-02', { top: 12, 'opened-further': true }]), 'opened-further'],
    ['not reached', wall(base, ['2026-06-02', { 'top-found': 'higher' }]), 'not-reached'],
    ['far lower than growth', wall(base, ['2026-06-02', { top: 41 }]), 'lower-than-growth'],
    ['spreading though it grew', wall(base, ['2026-06-02', { top: 26, width: 16 }]), 'spreading'],
    ['infected, whatever its readings', wall(base, ['2026-06-02', { top: 26, infected: true }]), 'infected'],
    [
      'infected and healed since',
      wall(['2026-05-05', { top: 40, infected: true }], ['2026-06-02', { state: 'healed' }]),
      'healed',
    ],
    ['a lasting fault', wall(base, ['2026-06-02', { state: 'lasting' }]), 'lasting'],
    ['covered, measured once', wall(['2026-05-05', { state: 'covered', top: 20 }]), 'covered'],
    ['covered and growing down', wall(base, ['2026-06-02', { state: 'covered', top: 26 }]), 'growing-down'],
  ])('%s', (_, animal, standing) => {
    expect(word(animal)).toBe(standing);
  });

  it('a fissure that begins at the coronet stands there, though no date is given for it', () => {
    const animal = cow([visit('2026-05-05', { found: { a: { state: 'open', top: 0 } } })], {
      lesions: { a: { code: 'HFV', foot: 'LH', claw: 'outer', line: 'dorsal' } },
    });
    expect(word(animal)).toBe('at-coronet');
  });

  it('too little over eight weeks may be held: doubtful, since the first of them', () => {
    // Heel, ruler: z = −2.25, worked out in tests/growth/held-slowly.test.ts.
    const { calvings: _, ...animal } = wall(
      ['2026-01-01', { top: 20, tool: 'ruler' }],
      ['2026-01-29', { top: 21, tool: 'ruler' }],
      ['2026-02-26', { top: 22, tool: 'ruler' }],
    );
    expect(at(animal).lesions[0]).toMatchObject({
      standing: 'doubtful',
      evidence: { since: '2026-01-01', mayBeHeld: true },
    });
  });

  it('growing down carries the change, what was expected, and the whole way since the clock began', () => {
    const animal = wall(base, ['2026-05-19', { top: 23 }], ['2026-06-02', { top: 26 }]);
    const { evidence } = at(animal).lesions[0]!;
    expect(evidence).toMatchObject({
      thenMm: 23,
      nowMm: 26,
      since: '2026-05-19',
      start: { date: '2026-05-05', changeMm: 6, after: 'first' },
    });
    expect(evidence.expectedLowMm).toBeLessThan(26);
    expect(evidence.expectedHighMm).toBeGreaterThan(26);
  });

  it.each<[string, Animal, string]>([
    ['ran up', wall(['2026-03-31', { top: 30 }], ['2026-04-28', { top: 8 }], ['2026-05-19', { top: 12 }], ['2026-06-02', { top: 15.5 }]), 'ran-up'],
    ['opened further', wall(['2026-03-31', { top: 30 }], ['2026-04-28', { top: 8, 'opened-further': true }], ['2026-05-19', { top: 12 }], ['2026-06-02', { top: 15.5 }]), 'opened-further'],
    ['at the coronet', wall(['2026-03-31', { top: 30 }], ['2026-04-28', { top: 0 }], ['2026-05-19', { top: 4 }], ['2026-06-02', { top: 7.5 }]), 'at-coronet'],
    ['lower than growth', wall(['2026-03-31', { top: 8 }], ['2026-04-28', { top: 30 }], ['2026-05-19', { top: 34 }], ['2026-06-02', { top: 37.5 }]), 'another'],
  ])('the present clock began where it %s', (_, animal, after) => {
    const { evidence, standing } = at(animal).lesions[0]!;
    expect(standing).toBe('growing-down');
    expect(evidence.since).toBe('2026-05-19');
    expect(evidence.start).toMatchObject({ date: '2026-04-28', changeMm: 7.5, after });
  }); // prettier-ignore

  it('covered is said of the last look where it was, and of no other', () => {
    const covered = (...animal: Parameters<typeof wall>) => at(wall(...animal)).lesions[0]!.evidence.covered;
    expect(covered(base, ['2026-06-02', { state: 'covered', top: 26 }])).toBe(true);
    expect(covered(['2026-06-02', { state: 'covered' }])).toBe(true);
    expect(covered(base, ['2026-06-02', { top: 26 }])).toBeUndefined();
    expect(
      covered(['2026-05-05', { state: 'covered', top: 20 }], ['2026-06-02', { top: 26 }]),
    ).toBeUndefined();
  });

  it('never measured, its day is that of the last look', () => {
    const animal = wall(['2026-05-05', {}], ['2026-06-02', {}]);
    expect(at(animal).lesions[0]!.evidence.date).toBe('2026-06-02');
  });

  it('two tools are said to be mixed, one is not', () => {
    const tools = (then: Found['tool'], now: Found['tool']) =>
      at(wall(['2026-05-05', { top: 20, tool: then! }], ['2026-06-02', { top: 26, tool: now! }])).lesions[0]!
        .evidence.mixedTools;
    expect(tools('ruler', 'calliper')).toBe(true);
    expect(tools('ruler', 'ruler')).toBeUndefined();
  });

  it('a length read where the top was not reached is not compared with', () => {
    const higher: Found = { top: 15, 'top-found': 'higher' };
    const animal = wall(base, ['2026-05-19', higher], ['2026-06-02', { top: 24 }]);
    expect(at(animal).lesions[0]).toMatchObject({
      standing: 'open',
      evidence: { since: '2026-05-05', thenMm: 20, nowMm: 24 },
    });
  });

  it('a change just at what two calliper readings can tell is reported, just below it is not', () => {
    // 1.96 · √2 = 2.772 mm.
    expect(word(wall(base, ['2026-05-15', { top: 22.8 }]))).toBe('growing-down');
    expect(word(wall(base, ['2026-05-15', { top: 22.7 }]))).toBe('no-change-shown');
  });

  it('small steps that show together are growing down, compared with the start of the stretch', () => {
    // Two ruler readings tell 1.96 · √8 = 5.54 mm apart: no step here does, five together do.
    const ruler = (top: number): Found => ({ top, tool: 'ruler' });
    const tops = [20, 24, 27, 31, 35].map((top, k): [string, Found] => [`2026-0${k + 1}-20`, ruler(top)]);
    const upTo = (count: number) => at(wall(...tops.slice(0, count))).lesions[0]!;
    expect(upTo(2)).toMatchObject({ standing: 'no-change-shown', evidence: { since: '2026-01-20' } });
    expect(upTo(5)).toMatchObject({
      standing: 'growing-down',
      evidence: { since: '2026-01-20', thenMm: 20, nowMm: 35 },
    });
    expect(upTo(5).evidence.tellsMm).toBeCloseTo(1.96 * Math.sqrt(8), 2);
    expect(upTo(5).evidence.start).toBeUndefined();
  });

  it('a step that shows after one up is no change where the stretch shows none', () => {
    const ruler = (top: number): Found => ({ top, tool: 'ruler' });
    const animal = wall(['2026-05-05', ruler(22)], ['2026-05-08', ruler(19)], ['2026-05-22', ruler(26)]);
    expect(at(animal).lesions[0]).toMatchObject({
      standing: 'no-change-shown',
      evidence: { since: '2026-05-05', thenMm: 22, nowMm: 26 },
    });
  });

  it('what looks like centimetres is doubtful with its question, and measured again; not a run-up', () => {
    const animal = wall(['2026-05-05', { top: 33, wall: 43 }], ['2026-06-02', { top: 4.1 }]);
    const { standing, due } = workOut(animal, today);
    expect(standing.lesions[0]).toMatchObject({
      standing: 'doubtful',
      evidence: { asked: '4.1 mm? 41 would fit.', nowMm: 4.1 },
    });
    expect(due.map(({ what }) => what)).toContain('measure-again');
    expect(word(wall(['2026-05-05', { top: 33, wall: 43 }], ['2026-06-02', { top: 12 }]))).toBe('ran-up');
  });

  it('a joined gap is followed under the other', () => {
    const animal = cow([visit('2026-05-05', { found: { a: { state: 'open', top: 20, joined: 'b' } } })], {
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
        b: { code: 'WL', foot: 'LH', claw: 'outer', line: 'abaxial' },
      },
    });
    expect(at(animal).lesions[0]).toMatchObject({ standing: 'joined', evidence: { joinedTo: 'b' } });
  });

  it('the same place broken down again has come back', () => {
    const animal = cow([visit('2026-06-02', { found: { b: { state: 'open', top: 20 } } })], {
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
        b: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel', 'again-of': 'a' },
      },
    });
    expect(at(animal).lesions.map(({ standing }) => standing)).toEqual(['not-measured', 'came-back']);
  });

  it('is as it stood on an earlier day', () => {
    const animal = wall(base, ['2026-06-02', { top: 5 }]);
    expect(word(animal, '2026-05-20')).toBe('open');
  });
});

const width = (mm: number, state: Found['state'] = 'open'): Found => ({ state, width: mm, tool: 'ruler' });

describe('an ulcer, by what its last width was taken for and by reading error', () => {
  // Two ruler readings tell 1.96 · √(2² + 2²) = 5.54 mm apart.
  it.each<[string, Animal, string]>([
    ['closing', of('SU', ['2026-05-05', width(16)], ['2026-06-02', width(10)]), 'closing'],
    ['not told apart', of('SU', ['2026-05-05', width(16)], ['2026-06-02', width(11)]), 'no-change-shown'],
    ['opening up', of('SU', ['2026-05-05', width(10)], ['2026-06-02', width(16)]), 'opening-up'],
    [
      'wider than before though narrower than at first',
      of('SU', ['2026-04-07', width(24)], ['2026-05-05', width(8)], ['2026-06-02', width(16)]),
      'opening-up',
    ],
    [
      'small steps add up',
      of('BU', ['2026-04-07', width(16)], ['2026-05-05', width(12)], ['2026-06-02', width(8)]),
      'closing',
    ],
    ['one width', of('TU', ['2026-06-02', width(9)]), 'open'],
    ['no width', of('SU', ['2026-06-02', { state: 'open' }]), 'not-measured'],
    ['covered', of('SU', ['2026-05-05', width(9)], ['2026-06-02', { state: 'covered' }]), 'covered'],
    [
      'open again',
      of('SU', ['2026-04-07', width(16)], ['2026-05-05', { state: 'covered' }], ['2026-06-02', width(6)]),
      'came-back',
    ],
    ['healed', of('SU', ['2026-05-05', width(9)], ['2026-06-02', { state: 'healed' }]), 'healed'],
    [
      'infected',
      of('SU', ['2026-05-05', width(16)], ['2026-06-02', { ...width(6), infected: true }]),
      'infected',
    ],
  ])('%s', (_, animal, standing) => {
    expect(word(animal)).toBe(standing);
  });

  // Calliper, 14 days from 20 mm: 13.0 mm expected, doubtful from 19.6 on, opening up from 22.9.
  const calliper = (...widths: (number | Found)[]) =>
    of(
      'SU',
      ...widths.map((one, index): [string, Found] => [
        ['2026-04-21', '2026-05-05', '2026-05-19', '2026-06-02'][index]!,
        typeof one === 'number' ? { ...width(one), tool: 'calliper' } : one,
      ]),
    );

  it.each<[string, Animal, string]>([
    ['wider than it should be, once', calliper(20, 21), 'doubtful'],
    ['much wider', calliper(20, 30), 'opening-up'],
    ['as wide twice running', calliper(20, 21, 21), 'held'],
    ['a misreading between', calliper(20, 21, 10), 'closing'],
    ['far smaller than closing explains', calliper(40, 10), 'lower-than-growth'],
    ['said to have opened further', calliper(20, { ...width(30), 'opened-further': true }), 'opened-further'],
    ['closing again after it opened up', calliper(20, 30, 24), 'closing'],
    [
      'no width at the last look: the last width still stands',
      calliper(20, 30, { state: 'open' }),
      'opening-up',
    ],
    ['came back and not measured yet', calliper(20, { state: 'covered' }, { state: 'open' }), 'came-back'],
    ['came back and closing', calliper(20, { state: 'covered' }, 14, 6), 'closing'],
    ['came back and hardly closing', calliper(20, { state: 'covered' }, 14, 14.5), 'doubtful'],
  ])('%s', (_, animal, standing) => {
    expect(word(animal)).toBe(standing);
  });

  it('its evidence has the expected width and how fast the margin came in, where length was taken too', () => {
    const long = (mm: number): Found => ({ state: 'open', width: mm, length: mm, tool: 'calliper' });
    const { evidence } = at(calliper(long(20), long(13))).lesions[0]!;
    expect(evidence).toMatchObject({ since: '2026-04-21', thenMm: 20, nowMm: 13 });
    expect(evidence.expectedLowMm).toBeLessThan(13);
    expect(evidence.expectedHighMm).toBeGreaterThan(13);
    // Two circles: (20² − 13²)/4 over (20 + 13)/2, by 14 days, is half the change of width a day.
    expect(evidence.marginMmPerDay).toBeCloseTo(7 / 2 / 14, 9);
  });

  it('the margin’s pace is told from one day to the next, never within a day', () => {
    const long = (mm: number): Found => ({ state: 'open', width: mm, length: mm, tool: 'calliper' });
    const pace = (day: string) =>
      at(of('SU', ['2026-05-05', long(20)], [day, long(18)])).lesions[0]!.evidence.marginMmPerDay;
    expect(pace('2026-05-06')).toBeCloseTo(1, 9);
    expect(pace('2026-05-05')).toBeUndefined();
  });

  it('another person’s reading is trusted less', () => {
    const animal = of('SU', ['2026-05-05', width(16)], ['2026-06-02', width(10)]);
    const other = {
      ...animal,
      visits: animal.visits.map((one, index) => (index === 1 ? { ...one, by: 'Piet Aldan' } : one)),
    };
    // 1.96 · √(2² + 2² + 1.5²) = 6.27 mm.
    expect(word(other)).toBe('no-change-shown');
  });
});

describe('a double sole, by reading error alone', () => {
  // Two ruler readings tell 1.96 · √(2² + 2²) = 5.54 mm apart.
  const sole = (...found: Found[]) =>
    of('DS', ...found.map((one, month): [string, Found] => [`2026-0${month + 1}-05`, one]));
  it.each<[string, Animal, object]>([
    ['closing', sole(width(16), width(13), width(10)), { since: '2026-01-05', thenMm: 16, nowMm: 10 }],
    ['no-change-shown', sole(width(16), width(11)), { since: '2026-01-05', thenMm: 16, nowMm: 11 }],
    ['opening-up', sole(width(20), width(8), width(14)), { since: '2026-02-05', thenMm: 8, nowMm: 14 }],
    ['opening-up', sole(width(8), width(11), width(14)), { since: '2026-01-05', thenMm: 8, nowMm: 14 }],
    ['open', sole(width(16)), { date: '2026-01-05', nowMm: 16, tool: 'ruler' }],
    ['not-measured', sole({ state: 'open' }), { date: '2026-01-05' }],
    ['covered', sole(width(16), { state: 'covered' }), { date: '2026-02-05', covered: true }],
    ['came-back', sole(width(16), { state: 'covered' }, width(9)), { since: '2026-02-05', nowMm: 9 }],
    ['came-back', sole(width(16), { state: 'covered' }, { state: 'open' }), { since: '2026-02-05' }],
    ['closing', sole({ state: 'covered' }, width(16), width(10)), { since: '2026-02-05', thenMm: 16 }],
    ['no-change-shown', sole({ ...width(16), tool: 'eye' }, width(10)), { mixedTools: true, tool: 'ruler' }],
  ])('%s', (standing, animal, evidence) => {
    expect(at(animal).lesions[0]).toMatchObject({ standing, evidence });
  });

  it('says what two readings can tell, and nothing of mixed tools where they are one', () => {
    const { evidence } = at(sole(width(16), width(10))).lesions[0]!;
    expect(evidence.tellsMm).toBeCloseTo(1.96 * Math.sqrt(8), 2);
    expect(evidence.mixedTools).toBeUndefined();
  });
});

const looks = (...staged: [string, Found['stage']][]) =>
  of('DD', ...staged.map(([date, stage]): [string, Found] => [date, stage ? { stage } : {}]));

describe('digital dermatitis', () => {
  it('counts looks at least 28 days apart, and each return', () => {
    const animal = looks(
      ['2026-01-06', 'M2'],
      ['2026-01-13', 'M2'],
      ['2026-02-03', 'M3'],
      ['2026-03-03', 'M4.1'],
      ['2026-04-07', 'M4'],
      ['2026-05-05', 'M1'],
    );
    expect(at(animal).lesions[0]).toMatchObject({
      standing: 'active',
      evidence: { stage: 'M1', activeLooks: { active: 3, looks: 5 }, returns: 2 },
    });
  });

  it.each<[string, Animal, string]>([
    ['quiet', looks(['2026-05-05', 'M2'], ['2026-06-02', 'M4']), 'quiet'],
    ['healed', looks(['2026-05-05', 'M2'], ['2026-06-02', 'M0']), 'healed'],
    ['back after normal skin', looks(['2026-05-05', 'M0'], ['2026-06-02', 'M1']), 'came-back'],
    [
      'still active after that',
      looks(['2026-04-07', 'M0'], ['2026-05-05', 'M1'], ['2026-06-02', 'M2']),
      'active',
    ],
  ])('%s', (_, animal, standing) => {
    expect(word(animal)).toBe(standing);
  });
});

it('a lesion, foot or cow that was not lifted was not looked at', () => {
  const animal = cow([
    visit('2026-05-05', { found: { a: { state: 'open' } } }),
    visit('2026-05-12', { found: { a: { lifted: false } } }),
    visit('2026-05-19', { found: { a: { top: 20 } }, feet: { LH: { lifted: false } } }),
    visit('2026-05-26', { found: { a: { top: 20 } }, kind: 'missed' }),
    visit('2026-06-02', { found: { a: { top: 20 } }, feet: { RH: { lifted: false } } }),
  ]);
  expect(looksAt(animal, 'a', today).map(({ date }) => date)).toEqual(['2026-05-05', '2026-06-02']);
});

describe('episodes', () => {
  const visits = ['2026-01-06', '2026-02-03', '2026-05-05', '2026-06-02'].map((date) => visit(date));

  it('without the key there is one, open, with every visit', () => {
    expect(episodesOf(cow(visits), today)).toEqual([{ visits: [0, 1, 2, 3] }]);
  });

  it('visits belong by date, and an end after the day asked about has not come', () => {
    const animal = cow(visits, {
      episodes: [
        { 'lame-since': '2025-12-28', ended: '2026-02-03', result: 'sound' },
        { 'lame-since': '2026-05-01' },
      ],
    });
    expect(episodesOf(animal, today)).toMatchObject([
      { ended: '2026-02-03', result: 'sound', visits: [0, 1] },
      { lameSince: '2026-05-01', visits: [2, 3] },
    ]);
    const [first] = episodesOf(animal, '2026-02-02');
    expect(first?.ended).toBeUndefined();
    expect(at(animal).closed).toBeUndefined();
  });

  it('a routine look after the end opens nothing; trouble found after it does', () => {
    const ended = { episodes: [{ ended: '2026-02-03', result: 'sound' as const }] };
    expect(at(cow(visits, ended)).closed).toEqual({ on: '2026-02-03', result: 'sound' });
    const trouble = cow(
      [...visits.slice(0, 3), visit('2026-06-02', { found: { a: { state: 'open' } } })],
      ended,
    );
    expect(at(trouble).closed).toBeUndefined();
    expect(at(trouble).episode.visits).toEqual([3]);
  });

  it.each<[string, boolean, Parameters<typeof visit>[1]]>([
    ['told that she is down', false, { kind: 'report', signs: ['down'] }],
    ['blisters on a foot', false, { feet: { RF: { lifted: true, signs: ['blisters'] } } }],
    ['crumbly horn', true, { feet: { RF: { lifted: true, signs: ['crumbly horn'] } } }],
    [
      'horn that is soft, smells or comes loose, a line stretched',
      true,
      { feet: { RF: { lifted: true, signs: ['soft horn', 'smell', 'loose horn', 'white line stretched'] } } },
    ],
    ['a walk that is lame on every scale', false, { gait: 3 }],
    ['a walk that is not lame on every scale', true, { gait: 2 }],
    ['a lesion open', false, { found: { a: { state: 'open' } } }],
    ['a lesion covered', false, { found: { a: { state: 'covered' } } }],
    ['a lesion present', false, { found: { a: { state: 'present' } } }],
    ['a lesion healed', true, { found: { a: { state: 'healed' } } }],
    ['a lesion healed and infected', false, { found: { a: { state: 'healed', infected: true } } }],
    ['loose horn on a lesion', true, { found: { a: { state: 'healed', signs: ['loose horn'] } } }],
    ['pus in a lesion', false, { found: { a: { state: 'healed', signs: ['pus'] } } }],
    ['active dermatitis', false, { found: { a: { stage: 'M4.1' } } }],
    ['quiet dermatitis', true, { found: { a: { stage: 'M4' } } }],
  ])('seen after the end: %s; closed: %s', (_, closed, more) => {
    const animal = cow([...visits.slice(0, 3), visit('2026-06-02', more)], {
      episodes: [{ ended: '2026-02-03', result: 'sound' }],
    });
    expect(at(animal).closed !== undefined).toBe(closed);
  });
});

const entry = (slug: string, animal: Animal, urgency?: number) => ({
  slug,
  standing: at(animal),
  ...(urgency === undefined ? {} : { urgency }),
});

describe('worst first', () => {
  const grew = wall(['2026-05-05', { top: 20 }], ['2026-06-02', { top: 26 }]);
  const ranUp = wall(['2026-05-05', { top: 20 }], ['2026-06-02', { top: 5 }]);
  const severe = cow([visit('2026-06-02', { gait: 3 })], { lesions: {} });
  const closed = { ...ranUp, episodes: [{ ended: '2026-06-05', result: 'sold' as const }] };

  it('closed last, the vet’s first, severely lame before the worst gap, then by the order of precedence', () => {
    const cases = [
      entry('e', closed, 0),
      entry('d', grew),
      entry('c', ranUp),
      entry('b', severe),
      entry('a', grew, 1),
    ];
    expect(worstFirst(cases).map(({ slug }) => slug)).toEqual(['a', 'b', 'c', 'd', 'e']);
    expect(worstFirst(cases.toReversed()).map(({ slug }) => slug)).toEqual(['a', 'b', 'c', 'd', 'e']);
  });

  it('the worse gap comes before the name', () => {
    expect(worstFirst([entry('1', grew), entry('2', ranUp)]).map(({ slug }) => slug)).toEqual(['2', '1']);
  });

  it('what is alike is settled by the name', () => {
    expect(worstFirst([entry('2', grew), entry('1', grew)]).map(({ slug }) => slug)).toEqual(['1', '2']);
  });
});

it('the leading lesion is the first in the order of precedence among those not healed', () => {
  const animal = cow(
    [visit('2026-05-05', { found: { a: { state: 'healed' }, b: { state: 'open' }, c: { stage: 'M2' } } })],
    {
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
        b: { code: 'SU', foot: 'RH', claw: 'outer' },
        c: { code: 'DD', foot: 'RH' },
      },
    },
  );
  expect(at(animal).leading?.lesion).toBe('c');
  expect(standingOrder.indexOf('active')).toBeLessThan(standingOrder.indexOf('not-measured'));
});

it('what has ended leads only where nothing else is left', () => {
  const gaps = (...codes: [string, Found][]) =>
    at(
      cow([visit('2026-05-05', { found: Object.fromEntries(codes) })], {
        lesions: Object.fromEntries(
          codes.map(([name]) => [name, { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } as const]),
        ),
      }),
    ).leading;
  expect(gaps(['a', { state: 'healed' }], ['b', { state: 'open' }])).toMatchObject({ lesion: 'b', standing: 'not-measured' }); // prettier-ignore
  expect(gaps(['a', { state: 'open', joined: 'b' }], ['b', { state: 'open' }])).toMatchObject({
    lesion: 'b',
  });
  expect(gaps(['a', { state: 'open', joined: 'b' }], ['b', { state: 'healed' }])).toMatchObject({ lesion: 'b', standing: 'healed' }); // prettier-ignore
  expect(gaps()).toBeUndefined();
});

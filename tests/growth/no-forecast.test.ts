import { expect, test } from 'vitest';
import type { Found } from '../../src/record/visit.js';
import type { Lesion } from '../../src/record/lesion.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import { animalWith, gap, gapOf, growthOf, noSeason, top, visit } from './invented-animal.js';

const whyAfter = (second: Found, lesion: Lesion = gap) => {
  const visits = [visit('2026-01-01', { a: top(20) }), visit('2026-01-29', { a: second })];
  const { forecast } = gapOf(animalWith(visits, { lesions: { a: lesion, b: { ...gap, line: 'axial' } } }));
  return forecast.outcome === 'none' ? forecast.why : undefined;
};

test('a gap that grows down has a date', () => {
  expect(whyAfter(top(31))).toBeUndefined();
  expect(whyAfter(top(31, { state: 'covered' }))).toBeUndefined();
  expect(whyAfter({ state: 'open' })).toBeUndefined();
});

test.each<[why: string, second: Found]>([
  ['healed', { state: 'healed', infected: true }],
  ['lasting', { state: 'lasting', joined: 'b' }],
  ['joined', { joined: 'b', state: 'open', infected: true }],
  ['infected', { state: 'open', infected: true, signs: ['bone'] }],
  ['infected', top(31, { infected: true })],
  ['bone-or-necrosis', { state: 'open', signs: ['bone'], 'ran-up': true }],
  ['bone-or-necrosis', top(31, { signs: ['pus', 'necrosis'] })],
  ['bone-or-necrosis', top(31, { code: 'TN' })],
  ['ran-up-unmeasured', { state: 'open', 'ran-up': true }],
  ['ran-up-unmeasured', { state: 'open', 'ran-up': true, 'top-found': 'higher' }],
  ['not-reached', { state: 'open', 'top-found': 'higher' }],
  ['not-reached', top(31, { 'top-found': 'higher' })],
  ['held', top(15)],
  ['doubtful', top(17)],
])('%s', (why, second) => {
  expect(whyAfter(second)).toBe(why);
});

test('nothing measured: no length; a line never placed is said too', () => {
  const growth = growthOf(
    animalWith([visit('2026-01-01', { a: { state: 'open' }, b: { state: 'open' } })], {
      lesions: { a: gap, b: { code: 'WL', foot: 'RH' }, c: { code: 'SU', foot: 'LH', claw: 'outer' } },
    }),
  );
  expect(growth.lesions.map(({ lesion, forecast }) => [lesion, forecast])).toEqual([
    ['a', { outcome: 'none', why: 'no-length' }],
  ]);
  expect(growth.unplaced).toEqual([{ lesion: 'b', code: 'WL', foot: 'RH', why: 'no-length' }]);
});

const whySaid = (...found: Found[]) => {
  const { forecast } = gapOf(animalWith(found.map((one, k) => visit(`2026-0${k + 1}-01`, { a: one }))));
  return forecast.outcome === 'none' ? forecast.why : undefined;
};

test('what was said holds until it is said otherwise', () => {
  expect(whySaid(top(20, { infected: true }), top(26))).toBe('infected');
  expect(whySaid(top(20, { infected: true }), top(26, { infected: false }))).toBeUndefined();
  expect(whySaid(top(20, { signs: ['bone'] }), top(26))).toBe('bone-or-necrosis');
  expect(whySaid(top(20, { signs: ['bone'] }), top(26, { signs: ['pus'] }))).toBeUndefined();
  expect(whySaid(top(20), { state: 'open', 'ran-up': true }, { state: 'open' })).toBe('ran-up-unmeasured');
  expect(whySaid(top(20), { state: 'open', 'ran-up': true }, top(30))).toBeUndefined();
});

const outcomeOf = (code: 'HFA' | 'HFV' | 'HFH', ...lengths: number[]) => {
  const visits = lengths.map((mm, k) => visit(`2026-0${k + 1}-01`, { a: top(mm) }));
  const { forecast } = gapOf(animalWith(visits, { lesions: { a: { ...gap, code } } }));
  return forecast.outcome === 'none' ? forecast.why : 'range';
};

test('an axial or vertical fissure has no date until two readings have come away from the coronet', () => {
  expect(outcomeOf('HFV', 0)).toBe('starts-at-coronet');
  expect(outcomeOf('HFV', 0, 6)).toBe('starts-at-coronet');
  expect(outcomeOf('HFA', 0, 6, 12)).toBe('range');
  expect(outcomeOf('HFA', 6, 12)).toBe('range');
  expect(outcomeOf('HFA', 6, 12, 0, 6)).toBe('starts-at-coronet');
  expect(outcomeOf('HFH', 0)).toBe('range');
});

test('a doubtful reading: the range if she has run up counts from it', () => {
  const visits = [visit('2026-01-01', { a: top(20) }), visit('2026-01-29', { a: top(17, { wall: 50 }) })];
  const { forecast, from } = gapOf(animalWith(visits));
  expect(from).toBe('2026-01-01');
  if (forecast.outcome !== 'none' || forecast.ifRanUp === undefined)
    throw new Error('expected a range if she ran up');
  expect(forecast.ifRanUp.from).toBe('2026-01-29');
  // (50 − 17) / 6 = 5.5 months at the rate held beforehand
  expect(forecast.ifRanUp.days.best).toBeCloseTo(5.5 * 30.4375, 6);
});

const atCoronet = (...lengths: number[]) => {
  const found = gapOf(animalWith(lengths.map((mm, k) => visit(`2026-0${k + 1}-01`, { a: top(mm) }))));
  return [found.forecast.outcome === 'range' && found.forecast.ifSoundHornFollows, found.stillAtCoronet];
};

test('at the coronet: only if sound horn follows, until a reading is two reading errors away', () => {
  expect(atCoronet(10, 0)).toEqual([true, false]);
  expect(atCoronet(10, 0, 0)).toEqual([true, true]);
  expect(atCoronet(0, 3.9)).toEqual([true, false]);
  expect(atCoronet(0, 4)).toEqual([false, false]);
  expect(atCoronet(10, 16)).toEqual([false, false]);
});

const byTool = (...tools: Found['tool'][]) =>
  animalWith(tools.map((tool, k) => visit(`2026-0${k + 1}-01`, { a: top(20 + 6 * k, { tool, wall: 50 }) })));

test('by eye alone: no date, the sums stay; one reading by anything else gives one', () => {
  const { forecast, nextReading } = gapOf(byTool('eye', 'eye', 'eye'));
  expect(Object.keys(forecast)).toEqual(['outcome', 'why', 'sums']);
  expect(forecast).toMatchObject({
    outcome: 'none',
    why: 'by-eye',
    sums: { from: '2026-03-01', ifSoundHornFollows: false },
  });
  expect(nextReading('2026-04-01')!.meanMm).toBeGreaterThan(32);
  for (const tool of ['ruler', 'tape', 'calliper', 'photo', undefined] as const)
    expect(gapOf(byTool('eye', tool, 'eye')).forecast.outcome).toBe('range');
});

// By eye, 28 days from 40 mm: expected 45.5, sd 10.2; −2 at 25.1, −3 at 14.9.
test('a doubtful reading by eye alone: how long if she has run up, and no day', () => {
  const { forecast } = gapOf(
    animalWith([
      visit('2026-01-01', { a: top(40, { tool: 'eye', wall: 60 }) }),
      visit('2026-01-29', { a: top(20, { tool: 'eye' }) }),
    ]),
  );
  if (forecast.outcome !== 'none') throw new Error('expected no date');
  expect(forecast.why).toBe('doubtful');
  // (60 − 20) / 6 months at the rate held beforehand
  expect(forecast.ifRanUp!.days.best).toBeCloseTo((40 / 6) * 30.4375, 6);
  expect(forecast.ifRanUp!.out).toBeUndefined();
});

test('a gap that does not move for 168 days, read by eye alone, has a date at no reading', () => {
  for (let visits = 1; visits <= 7; visits++) {
    const days = [
      '2026-01-01',
      '2026-01-29',
      '2026-02-26',
      '2026-03-26',
      '2026-04-23',
      '2026-05-21',
      '2026-06-18',
    ];
    const read = days.slice(0, visits).map((date) => visit(date, { a: top(20, { tool: 'eye', wall: 45 }) }));
    const { forecast } = gapOf(animalWith(read));
    expect(forecast.outcome).toBe('none');
    expect(JSON.stringify(forecast)).not.toMatch(/"out"/);
  }
});

test('under a same-day notice: before all other reasons but healed and lasting, and the sums stay where there are any', () => {
  const under = (found: Found, first: Found = {}) => {
    const animal = animalWith([
      visit('2026-01-01', { a: top(20, first) }),
      visit('2026-01-29', { a: found }),
    ]);
    const options = { today: '2026-02-01', prior: publishedPrior, underNotice: new Set(['a']) };
    return growthOfAnimal(animal, noSeason, options).lesions[0]!;
  };
  const plain = under(top(26));
  expect(plain.forecast).toMatchObject({ why: 'same-day-notice', sums: { from: '2026-01-29' } });
  expect(plain.nextReading('2026-02-26')).toBeUndefined();
  const eye = { tool: 'eye' } as const;
  expect(under(top(26, eye), eye).forecast).toMatchObject({
    why: 'same-day-notice',
    sums: { from: '2026-01-29' },
  });
  for (const found of [
    top(26, { infected: true }),
    top(17),
    top(15),
    { state: 'open', 'ran-up': true } as Found,
  ])
    expect(under(found).forecast).toEqual({ outcome: 'none', why: 'same-day-notice' });
  expect(under(top(15)).heldNow).toBeDefined();
  expect(under({ state: 'healed' }).forecast).toMatchObject({ why: 'healed' });
  expect(under({ state: 'lasting' }).forecast).toMatchObject({ why: 'lasting' });
});

test('under a same-day notice another gap keeps its date, the case has none, and a gap never placed says why', () => {
  const animal = animalWith([visit('2026-01-01', { a: top(20), b: top(20) })], {
    lesions: { a: gap, b: { ...gap, claw: 'inner' }, c: { code: 'WL', foot: 'RF' } },
  });
  const options = { today: '2026-02-01', prior: publishedPrior, underNotice: new Set(['a', 'c']) };
  const growth = growthOfAnimal(animal, noSeason, options);
  expect(growth.lesions.map(({ forecast }) => forecast.outcome)).toEqual(['none', 'range']);
  expect(growth.case).toEqual({
    outcome: 'none',
    because: [
      { lesion: 'a', why: 'same-day-notice' },
      { lesion: 'c', why: 'same-day-notice' },
    ],
  });
});

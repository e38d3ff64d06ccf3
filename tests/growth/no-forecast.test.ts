import { expect, test } from 'vitest';
import type { Found } from '../../src/record/found.js';
import type { Lesion } from '../../src/record/lesion.js';
import { animalWith, gap, gapOf, growthOf, top, visit } from './invented-animal.js';

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

test('what was said stands until it is said otherwise', () => {
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

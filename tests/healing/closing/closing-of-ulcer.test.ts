import { describe, expect, test } from 'vitest';
import type { Animal } from '../../../src/record/animal.js';
import type { Found } from '../../../src/record/visit.js';
import type { LesionCode } from '../../../src/record/words.js';
import { closingOfUlcer, closingsOf, withoutDate } from '../../../src/healing/closing/closing-of-ulcer.js';
import { animalWith, visit } from '../../growth/invented-animal.js';

const width = (mm: number, more: Found = {}): Found => ({
  state: 'open',
  width: mm,
  tool: 'calliper',
  ...more,
});
const days = ['2026-01-01', '2026-01-15', '2026-01-29', '2026-02-12', '2026-02-26', '2026-03-12'];

function ulcer(findings: readonly Found[], code: LesionCode = 'SU', more: Partial<Animal> = {}) {
  const visits = findings.map((found, at) => visit(days[at]!, { u: found }));
  const lesions: Animal['lesions'] = { u: { code, foot: 'LH', claw: 'outer' } };
  return closingOfUlcer(animalWith(visits, { lesions, ...more }), 'u', '2026-11-25')!;
}

const kinds = (...findings: Found[]) => ulcer(findings).readings.map(({ kind }) => kind);

// Calliper, 14 days from 20 mm: expected 13.0 mm, SD of a margin 1.65; −2 at a width of 19.6, −3 at 22.9.
describe('kinds', () => {
  test.each([
    ['closing as it should', [20, 13], ['first', 'as-expected']],
    ['a little wider than it should be', [20, 21], ['first', 'doubtful']],
    ['much wider', [20, 30], ['first', 'opening-up']],
    ['wider twice', [20, 22, 25], ['first', 'doubtful', 'opening-up']],
    ['standing still twice', [20, 21, 21], ['first', 'doubtful', 'held']],
    ['a misreading between', [20, 21, 10], ['first', 'doubtful', 'as-expected']],
    ['far smaller than closing explains', [40, 10], ['first', 'smaller-than-closing']],
    ['no width at all is no coronet', [6, 0], ['first', 'as-expected']],
  ] as const)('%s: %j', (_, widths, expected) => {
    expect(kinds(...widths.map((mm) => width(mm)))).toEqual(expected);
  });

  test('said to have opened further', () => {
    expect(kinds(width(20), width(30, { 'opened-further': true }))).toEqual(['first', 'opened-further']);
  });

  test('opening up says by how much, over all', () => {
    const [, second] = ulcer([width(20), width(30)]).readings;
    expect(second!.widerByMm).toBeCloseTo(30 - second!.expectedMm!, 9);
    expect(second!.z).toBeLessThan(-3);
  });

  test('another reader is less sure, by half as much on half the width', () => {
    const visits = [
      visit(days[0]!, { u: width(20) }),
      visit(days[1]!, { u: width(14) }, { by: 'Fenn Arkwell' }),
    ];
    const closing = closingOfUlcer(
      animalWith(visits, { lesions: { u: { code: 'SU', foot: 'LH' } } }),
      'u',
      '2026-11-25',
    )!;
    expect(closing.readings.map(({ sigmaMm }) => sigmaMm)).toEqual([1, Math.hypot(1, 1.5)]);
  });
});

describe('closed and come back', () => {
  const covered: Found = { state: 'covered' };

  test('covered ends the series, between the day last open and that visit', () => {
    const closing = ulcer([width(16), width(9), covered, covered]);
    expect(closing.forecast).toEqual({ outcome: 'none', why: 'covered' });
    expect(closing.closed).toEqual([{ after: days[1], by: days[2] }]);
    expect(closing.cameBack).toEqual([]);
    expect(closing.nextReading('2026-06-01')).toBeUndefined();
  });

  test('open again starts anew and keeps what was learned of how fast she closes', () => {
    const closing = ulcer([width(16), width(9), covered, width(12)]);
    expect(closing.readings.map(({ kind }) => kind)).toEqual(['first', 'as-expected', 'came-back']);
    expect(closing.cameBack).toEqual([days[3]]);
    expect(closing.factor).toEqual(ulcer([width(16), width(9)]).factor);
    expect(closing.forecast).toMatchObject({ outcome: 'range', from: days[3] });
    expect(closing.readings[2]!.marginMmPerDay).toBeUndefined();
  });

  test('open again without a width has no date; first seen covered has no day before', () => {
    expect(ulcer([width(16), covered, { state: 'open' }]).forecast).toEqual({
      outcome: 'none',
      why: 'no-width',
    });
    expect(ulcer([covered]).closed).toEqual([{ by: days[0] }]);
  });
});

describe('why no date', () => {
  test.each([
    ['healed', 'SU', [width(16), { state: 'healed' }], 'healed'],
    ['infected', 'SU', [width(16), width(12, { infected: true })], 'infected'],
    ['infected and it stands', 'SU', [width(16, { infected: true }), width(12)], 'infected'],
    ['no longer infected', 'SU', [width(16, { infected: true }), width(12, { infected: false })], undefined],
    ['a toe ulcer with pus', 'TU', [width(16, { signs: ['pus'] })], 'toe-ulcer-with-pus-or-bone'],
    [
      'a toe ulcer with bone, signs not written anew',
      'TU',
      [width(16, { signs: ['bone'] }), width(14)],
      'toe-ulcer-with-pus-or-bone',
    ],
    ['a toe ulcer once clean', 'TU', [width(16, { signs: ['pus'] }), width(12, { signs: [] })], undefined],
    ['a sole ulcer with pus', 'SU', [width(16, { signs: ['pus'] })], undefined],
    ['never measured', 'BU', [{ state: 'open' }], 'no-width'],
    ['turned toe necrosis', 'TU', [width(16), { state: 'open', code: 'TN' }], 'toe-necrosis'],
    [
      'a toe ulcer whose pus was there before it closed',
      'TU',
      [width(16, { signs: ['pus'] }), { state: 'covered' }, width(12)],
      undefined,
    ],
    ['joined to another', 'SU', [width(16), width(12, { joined: 'v' })], 'joined'],
    ['healed and infected', 'SU', [width(16, { infected: true }), { state: 'healed' }], 'healed'],
    ['not measured at the last look', 'SU', [width(16), { state: 'open' }], undefined],
    ['doubtful', 'SU', [width(20), width(21)], 'doubtful'],
    ['held', 'SU', [width(20), width(21), width(21)], 'held'],
    ['infected is said before doubtful', 'SU', [width(20), width(21, { infected: true })], 'infected'],
  ] as const)('%s', (_, code, findings, why) => {
    const { forecast } = ulcer(findings, code);
    expect(forecast.outcome === 'none' ? forecast.why : undefined).toBe(why);
  });

  test('a doubtful width also gives the range if it has opened up', () => {
    const { forecast } = ulcer([width(20), width(21)]);
    if (forecast.outcome !== 'none' || forecast.ifOpeningUp === undefined) return expect.unreachable();
    expect(forecast.ifOpeningUp.from).toBe(days[1]);
    expect(forecast.ifOpeningUp.days.best).toBeCloseTo((10.5 / 7.6) * 30.4375, 6);
  });
});

test('a width is one read on a foot that was lifted, as expected by hand', () => {
  const left: Found = width(30, { lifted: false });
  expect(ulcer([width(20), left, width(13)]).readings.map(({ widthMm }) => widthMm)).toEqual([20, 13]);
  const down = animalWith(
    [
      visit(days[0]!, { u: width(20) }),
      visit(days[1]!, { u: width(30) }, { feet: { LH: { lifted: false } } }),
    ],
    { lesions: { u: { code: 'SU', foot: 'LH' } } },
  );
  expect(closingOfUlcer(down, 'u', '2026-11-25')!.readings).toHaveLength(1);
  // 7.6 mm a month of 30.4375 days at each of two margins: 20 − 2 · 7.6 · 14 / 30.4375 = 13.0085.
  expect(ulcer([width(20), width(13)]).readings[1]!.expectedMm).toBeCloseTo(13.0085, 3);
});

test('what was never an ulcer does not close, one renamed since does; a name not declared is a slip', () => {
  expect(closingOfUlcer(animalWith([], { lesions: { u: { code: 'TN', foot: 'LH' } } }), 'u', days[0]!)).toBe(
    undefined,
  );
  const renamed = animalWith([visit(days[0]!, { u: width(20, { code: 'SU' }) })], {
    lesions: { u: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } },
  });
  expect(closingOfUlcer(renamed, 'u', days[0]!)).toMatchObject({ lesion: 'u', code: 'SU', claw: 'outer' });
  expect(() => closingOfUlcer(renamed, 'x', days[0]!)).toThrow(RangeError);
});

test('called rough until four widths', () => {
  expect(ulcer([width(20), width(17), width(14)]).rough).toBe(true);
  expect(ulcer([width(20), width(17), width(14), width(11)]).rough).toBe(false);
});

test('the margin comes in from reading to reading, where length and width are given', () => {
  const { readings } = ulcer([width(20, { length: 20 }), width(14, { length: 14 }), width(12)]);
  expect(readings.map(({ marginMmPerDay }) => marginMmPerDay)).toEqual([
    undefined,
    expect.closeTo(3 / 14, 12),
    undefined,
  ]);
});

test('what the next width should be: not below nothing, and a mark above it', () => {
  const next = ulcer([width(20), width(14)]).nextReading('2026-01-29')!;
  expect(next.lowMm).toBeGreaterThanOrEqual(0);
  expect(next.meanMm).toBeGreaterThan(next.lowMm);
  expect(next.highMm).toBeGreaterThan(next.meanMm);
  expect(next.alarmMm).toBeGreaterThan(next.highMm);
  // What the next reading turns out to be judged by.
  const judged = ulcer([width(20), width(14), width(next.alarmMm + 0.1)]).readings[2]!;
  expect(judged.kind).toBe('doubtful');
  expect(judged.expectedMm).toBeCloseTo(next.meanMm, 9);
  expect(ulcer([width(20), width(14)]).nextReading('2026-01-01')).toBeUndefined();
});

test('only sole, bulb and toe ulcers, in the order declared', () => {
  const lesions: Animal['lesions'] = {
    b: { code: 'BU', foot: 'LH' },
    w: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
    d: { code: 'DS', foot: 'RH' },
    s: { code: 'SU', foot: 'RH' },
  };
  expect(closingsOf(animalWith([], { lesions }), '2026-11-25').map(({ lesion }) => lesion)).toEqual([
    'b',
    's',
  ]);
});

test('widths by eye alone give no date, also where it may be opening up; one by a tool gives one', () => {
  const eye = { tool: 'eye' } as const;
  expect(ulcer([width(30, eye), width(22, eye)]).forecast).toEqual({ outcome: 'none', why: 'by-eye' });
  expect(ulcer([width(30, eye), width(22)]).forecast.outcome).toBe('range');
  // By eye, 14 days from 30 mm: expected 23 mm, SD of a width 10.4; −2 at 43.8, −3 at 54.2.
  expect(ulcer([width(30, eye), width(48, eye)]).forecast).toEqual({ outcome: 'none', why: 'doubtful' });
});

test('under a same-day notice the date is withheld; of one that is healed or covered nothing is', () => {
  expect(withoutDate(ulcer([width(20), width(13)])).forecast).toEqual({
    outcome: 'none',
    why: 'same-day-notice',
  });
  const covered = ulcer([width(20), { state: 'covered' }]);
  expect(withoutDate(covered)).toBe(covered);
});

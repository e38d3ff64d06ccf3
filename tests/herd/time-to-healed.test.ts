import { expect, test } from 'vitest';
import { digestOf } from '../../src/herd/farm-digest.js';
import { timeToHealed } from '../../src/herd/time-to-event.js';
import { cow, herd, looks, visit } from './invented-herd.js';

const today = '2026-06-01';

test('from first seen to the interval in which it healed, on lifted feet only', () => {
  const animals = [
    // open on 1 January and 29 January (day 28), healed 12 February (day 42): (28, 42]
    cow('1', looks(['2026-01-01', 'open'], ['2026-01-29', 'covered'], ['2026-02-12', 'healed'])),
    // still open on day 14; the farm's word on day 30 is no look: (14, not seen]
    cow('2', [
      ...looks(['2026-01-01', 'open'], ['2026-01-15', 'open']),
      visit('2026-01-31', { kind: 'report', found: { a: { state: 'healed' } } }),
    ]),
    // first seen healed: never followed
    cow('3', looks(['2026-01-01', 'healed'])),
    // a lasting fault is counted apart
    cow('4', looks(['2026-01-01', 'open'], ['2026-02-01', 'lasting'])),
    // a look after the day asked about has not happened
    cow('5', looks(['2026-05-01', 'open'], ['2026-06-02', 'healed'])),
  ];
  const [kind, ...others] = timeToHealed([digestOf(herd('quernholt', animals), today)]);
  expect(others).toEqual([]);
  expect(kind).toMatchObject({ code: 'WL', lasting: 1, count: 3, animals: 3, come: 1 });
  expect(kind!.cases.map(({ animal, days }) => [animal, days])).toEqual([
    ['1', { after: 28, by: 42 }],
    ['2', { after: 14, by: Infinity }],
    ['5', { after: 0, by: Infinity }],
  ]);
  // Three cases are listed one by one.
  expect(kind!.curve).toBeUndefined();
});

test('a gap that ran into another is followed up to that look, a foot left down is no look', () => {
  const joined = cow('1', [
    ...looks(['2026-01-01', 'open']),
    visit('2026-01-11', { feet: { LH: { lifted: false } }, found: { a: { state: 'healed' } } }),
    visit('2026-01-21', { found: { a: { state: 'open', joined: 'b' } } }),
    visit('2026-03-01', { found: { a: { state: 'healed' } } }),
  ]);
  expect(timeToHealed([digestOf(herd('quernholt', [joined]), today)])[0]!.cases[0]!.days).toEqual({
    after: 20,
    by: Infinity,
  });
});

test('digital dermatitis is healed at normal skin, and kinds are kept apart by the name they have now', () => {
  const animal = cow(
    '1',
    [
      visit('2026-01-01', { found: { c: { stage: 'M2' }, u: { state: 'present' } } }),
      visit('2026-01-15', { found: { c: { stage: 'M4' }, u: { state: 'open', code: 'SU' } } }),
      visit('2026-02-05', { found: { c: { stage: 'M0' }, u: { state: 'healed' } } }),
      visit('2026-03-05', { found: { c: { stage: 'M2' } } }),
    ],
    {
      lesions: {
        c: { code: 'DD', foot: 'LH' },
        u: { code: 'SH', foot: 'RH', claw: 'outer' },
      },
    },
  );
  const kinds = timeToHealed([digestOf(herd('quernholt', [animal]), today)]);
  expect(kinds.map(({ code, cases }) => [code, cases[0]!.days])).toEqual([
    ['DD', { after: 14, by: 35 }],
    ['SU', { after: 14, by: 35 }],
  ]);
});

/** So many cows, each with the gap open on day 0 and on the days told, then healed. */
const healing = (from: number, count: number, ...seen: Parameters<typeof looks>) =>
  Array.from({ length: count }, (_, at) => cow(`${from + at}`, looks(['2026-01-01', 'open'], ...seen)));

test('enough cases make a curve, worked by hand', () => {
  // Days: (0, 14] twenty times, (14, 28] four times. The boxes are the same two, with 5/6 and 1/6; by day 14 Wilson leaves 64 to 93 %.
  // All reach day 14 and only four reach further: the curve is reported up to day 14.
  const animals = [
    ...healing(1, 20, ['2026-01-15', 'healed']),
    ...healing(21, 4, ['2026-01-15', 'open'], ['2026-01-29', 'healed']),
  ];
  const [kind] = timeToHealed([digestOf(herd('quernholt', animals), today)]);
  const { boxes, half, knownTo } = kind!.curve!;
  expect(knownTo).toBe(14);
  expect(boxes.map(({ after, by }) => [after, by])).toEqual([[0, 14]]);
  expect(boxes[0]!.mass).toBeCloseTo(5 / 6, 6);
  // Half had healed by day 14, and on which of the fourteen days nobody knows: that is no figure.
  expect(half).toBeUndefined();
  expect(kind).toMatchObject({ count: 24, come: 24 });
  // Four are listed.
  expect(timeToHealed([digestOf(herd('quernholt', animals.slice(20)), today)])[0]!.curve).toBeUndefined();
});

test('one late healing among many seen only early does not make all of them healed', () => {
  // Nine last seen open on day 14, one healed in (112, 140]. The most likely curve puts all of its fall in that one box; it
  // is not reported, since past day 14 one case alone was followed.
  const animals = [
    ...healing(1, 9, ['2026-01-15', 'open']),
    ...healing(10, 1, ['2026-04-23', 'open'], ['2026-05-21', 'healed']),
  ];
  const [kind] = timeToHealed([digestOf(herd('quernholt', animals), today)]);
  expect(kind).toMatchObject({ count: 10, come: 1 });
  // None of ten had healed by day 14: chance in ten leaves up to 1.96² / (10 + 1.96²) = 28 %.
  expect(kind!.curve).toMatchObject({ boxes: [], knownTo: 14 });
  expect(kind!.curve!.half).toBeUndefined();
  expect(kind!.curve!.bounds).toEqual([{ day: 14, lower: 0, upper: expect.closeTo(0.2775, 3) as number }]);
});

test('a case still open bears on the shares where enough are followed', () => {
  // (0, 14] six times, (14, 28] three times, three last seen open on day 14: of the boxes (0, 14] and (14, 28] the
  // three cover only the second. Masses 6/12 and 6/12. The fifth furthest of 28 28 28 14 … is day 14.
  const animals = [
    ...healing(1, 6, ['2026-01-15', 'healed']),
    ...healing(7, 3, ['2026-01-15', 'open'], ['2026-01-29', 'healed']),
    ...healing(10, 3, ['2026-01-15', 'open']),
  ];
  const { boxes } = timeToHealed([digestOf(herd('quernholt', animals), today)])[0]!.curve!;
  expect(boxes).toHaveLength(1);
  expect(boxes[0]!.mass).toBeCloseTo(0.5, 6);
});

test('bounds are at the ends of boxes, of whole animals, and of fewer than five there is no curve', () => {
  const animals = [
    ...healing(1, 12, ['2026-01-15', 'healed']),
    ...healing(13, 12, ['2026-01-15', 'open'], ['2026-01-29', 'healed']),
  ];
  const { bounds } = timeToHealed([digestOf(herd('quernholt', animals), today)])[0]!.curve!;
  // 12 of 24 by day 14: 0.314 to 0.686 by Wilson, and drawn sets of 24 about as wide; all by day 28.
  expect(bounds.map(({ day }) => day)).toEqual([14, 28]);
  expect(bounds[0]!.lower).toBeLessThan(0.3145);
  expect(bounds[0]!.lower).toBeGreaterThan(0.25);
  expect(bounds[0]!.upper).toBeGreaterThan(0.6855);
  expect(bounds[1]).toEqual({ day: 28, lower: expect.closeTo(0.862, 3) as number, upper: 1 });
  const three = { a: 'LH', b: 'RH', c: 'LF' } as const;
  const many = ['1', '2', '3', '4'].map((number) =>
    cow(
      number,
      [
        visit('2026-01-01', { found: { a: { state: 'open' }, b: { state: 'open' }, c: { state: 'open' } } }),
        visit('2026-01-15', {
          found: { a: { state: 'healed' }, b: { state: 'open' }, c: { state: 'open' } },
        }),
      ],
      {
        lesions: Object.fromEntries(
          Object.entries(three).map(([name, foot]) => [
            name,
            { code: 'WL', foot, claw: 'outer', line: 'heel' },
          ]),
        ),
      },
    ),
  );
  const [kind] = timeToHealed([digestOf(herd('quernholt', many), today)]);
  expect(kind).toMatchObject({ count: 12, animals: 4 });
  expect(kind!.curve).toBeUndefined();
});

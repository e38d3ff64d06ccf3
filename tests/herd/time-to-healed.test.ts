import { expect, test } from 'vitest';
import { timeToHealed } from '../../src/herd/time-to-healed.js';
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
  const [kind, ...others] = timeToHealed([herd('quernholt', animals)], today);
  expect(others).toEqual([]);
  expect(kind).toMatchObject({ code: 'WL', lasting: 1, count: 3, animals: 3, come: 1 });
  expect(kind!.cases.map(({ animal, days }) => [animal, days])).toEqual([
    ['1', { after: 28, by: 42 }],
    ['2', { after: 14, by: Infinity }],
    ['5', { after: 0, by: Infinity }],
  ]);
  // Three cases are told one by one.
  expect(kind!.curve).toBeUndefined();
});

test('a gap that ran into another is followed up to that look, a foot left down is no look', () => {
  const joined = cow('1', [
    ...looks(['2026-01-01', 'open']),
    visit('2026-01-11', { feet: { LH: { lifted: false } }, found: { a: { state: 'healed' } } }),
    visit('2026-01-21', { found: { a: { state: 'open', joined: 'b' } } }),
    visit('2026-03-01', { found: { a: { state: 'healed' } } }),
  ]);
  expect(timeToHealed([herd('quernholt', [joined])], today)[0]!.cases[0]!.days).toEqual({
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
  const kinds = timeToHealed([herd('quernholt', [animal])], today);
  expect(kinds.map(({ code, cases }) => [code, cases[0]!.days])).toEqual([
    ['DD', { after: 14, by: 35 }],
    ['SU', { after: 14, by: 35 }],
  ]);
});

test('five cases make a curve, worked by hand', () => {
  // Days: (0, 14] three times, (14, 28] once, (14, not seen] once.
  // The boxes are (0, 14] and (14, 28] and (28, ∞) is none, since no interval starts at 28: the open one covers (14, 28] too,
  // so all that is not in the first box falls in the second. Masses 3/5 and 2/5; half had healed by day 14.
  const first = looks(['2026-01-01', 'open'], ['2026-01-15', 'healed']);
  const animals = [
    cow('1', first),
    cow('2', first),
    cow('3', first),
    cow('4', looks(['2026-01-01', 'open'], ['2026-01-15', 'open'], ['2026-01-29', 'healed'])),
    cow('5', looks(['2026-01-01', 'open'], ['2026-01-15', 'open'])),
  ];
  const [kind] = timeToHealed([herd('quernholt', animals)], today);
  const { boxes, half } = kind!.curve!;
  expect(boxes.map(({ after, by }) => [after, by])).toEqual([
    [0, 14],
    [14, 28],
  ]);
  expect(boxes[0]!.mass).toBeCloseTo(0.6, 6);
  expect(boxes[1]!.mass).toBeCloseTo(0.4, 6);
  expect(half).toEqual({ after: 0, by: 14 });
  expect(kind).toMatchObject({ count: 5, come: 4 });
  // With one case less they are listed.
  expect(timeToHealed([herd('quernholt', animals.slice(1))], today)[0]!.curve).toBeUndefined();
});

import { expect, test } from 'vitest';
import { pooledOn, withoutCopies } from '../../src/herd/pooled-on.js';
import { digestOf } from '../../src/herd/farm-digest.js';
import { farmFigures } from '../../src/herd/farm-figures.js';
import { animalNames } from '../../src/record/same-animal.js';
import { cow, herd, looks, practiceOf, visit } from './invented-herd.js';

const today = '2026-06-01';
const open = looks(['2026-01-01', 'open'], ['2026-01-15', 'open']);
const tag = 'UK 000123 400587';

const namesIn = (...farms: Parameters<typeof animalNames>[0]) => {
  const nameOf = animalNames(farms);
  return farms.flatMap(({ slug: farm, cases }) => cases.map(({ slug }) => nameOf({ farm, slug })));
};

test.each([
  ['the same tag, spaced otherwise', { tag }, { tag: 'uk000123-400587' }],
  ['the same electronic number', { electronic: '999000000400587' }, { electronic: '999000000400587' }],
  ['an earlier number on the other farm', {}, { earlier: [{ animal: '587', farm: 'harrowmere' }] }],
])('one animal on two farms: %s', (_, there, here) => {
  const farms = [herd('quernholt', [cow('12', [], here)]), herd('harrowmere', [cow('587', [], there)])];
  expect(namesIn(...farms)).toEqual(['harrowmere/587', 'harrowmere/587']);
  expect(namesIn(...farms.toReversed())).toEqual(['harrowmere/587', 'harrowmere/587']);
});

test('the same number alone is no identity; nor is an earlier one that another tag contradicts, or without its farm', () => {
  const others = [
    herd('harrowmere', [cow('587', [], { tag })]),
    herd('quernholt', [
      cow('587', []),
      cow('12', [], { tag: 'UK 000123 400012', earlier: [{ animal: '587', farm: 'harrowmere' }] }),
      cow('13', [], { earlier: [{ animal: '587' }] }),
    ]),
  ];
  expect(new Set(namesIn(...others)).size).toBe(4);
});

test('an earlier farm without a number is where she bore the one she has now', () => {
  const came = cow('12', [], { earlier: [{ farm: 'harrowmere' }] });
  expect(namesIn(herd('harrowmere', [cow('12', [])]), herd('quernholt', [came]))).toEqual([
    'harrowmere/12',
    'harrowmere/12',
  ]);
});

test('by three farms, and by marks that only two files share at a time', () => {
  const farms = [
    herd('harrowmere', [cow('587', [], { tag })]),
    herd('quernholt', [cow('12', [], { tag, electronic: '999000000400587' })]),
    herd('sallowby', [cow('3', [], { electronic: '999000000400587' })]),
  ];
  expect(new Set(namesIn(...farms))).toEqual(new Set(['harrowmere/587']));
});

test('a file taken along to the new farm is counted once, whichever came first', () => {
  const left = cow('587', [...open, visit('2026-02-01', { kind: 'report' })], { tag });
  const came = cow('12', [...open, ...looks(['2026-03-01', 'healed'])], { tag });
  const farms = [herd('harrowmere', [left]), herd('quernholt', [came])];
  const kept = (given: typeof farms) =>
    withoutCopies(given.map((farm) => digestOf(farm, today))).flatMap(({ cases }) =>
      cases.map(({ animal }) => animal.animal),
    );
  expect(kept(farms)).toEqual(['12']);
  expect(kept(farms.toReversed())).toEqual(['12']);
  // Of two alike one stays; a file that tells something of its own stays too.
  expect(kept([farms[0]!, herd('quernholt', [{ ...left, animal: '12' }])])).toEqual(['587']);
  const more = cow('12', looks(['2026-01-01', 'open'], ['2026-03-01', 'healed']), { tag });
  expect(kept([farms[0]!, herd('quernholt', [more])])).toEqual(['587', '12']);
});

test('in the figures of the business a cow that moved is one animal, on either farm’s page hers', () => {
  const moved = [
    cow('587', [...open, visit('2026-02-01', { kind: 'report' })], {
      tag,
      episodes: [{ 'lame-since': '2026-01-01', ended: '2026-02-01', result: 'moved' }],
    }),
    // Her file went along, and a second gap was found on the new farm.
    cow('12', [...open, visit('2026-03-01', { found: { a: { state: 'healed' }, b: { state: 'open' } } })], {
      tag,
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
        b: { code: 'WL', foot: 'RH', claw: 'outer', line: 'heel' },
      },
    }),
  ];
  const others = ['1', '2', '3'].map((number) => cow(number, open));
  const practice = practiceOf(
    herd('harrowmere', [moved[0]!]),
    herd('quernholt', [moved[1]!]),
    herd('sallowby', others),
  );
  const { farm } = farmFigures(practice.farms[0]!, today);
  const business = pooledOn(practice, today).figures;
  expect(farm.healed[0]).toMatchObject({ count: 1, animals: 1, come: 0 });
  // a and b of the one cow, and three others: five lesions, four animals, and a healed once.
  expect(business!.healed[0]).toMatchObject({ count: 5, animals: 4, come: 1 });
  const { running, ended } = business!.work;
  expect([...running!.visits.each, ...(ended?.visits.each ?? [])]).toHaveLength(4);
});

test('lesions followed on both farms, apart, are two cases of one animal', () => {
  const farms = [
    herd('harrowmere', [cow('587', open, { tag })]),
    herd('quernholt', [cow('12', looks(['2026-02-01', 'open']), { tag })]),
    herd('sallowby', []),
  ];
  const business = pooledOn(practiceOf(...farms), today).figures;
  expect(business!.healed[0]).toMatchObject({ count: 2, animals: 1 });
});

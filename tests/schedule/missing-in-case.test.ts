import { describe, expect, it } from 'vitest';
import type { Animal, Episode } from '../../src/record/animal.js';
import type { Visit } from '../../src/record/visit.js';
import {
  missingEntry,
  missingIds,
  type MissingId,
  missingOnFarm,
} from '../../src/schedule/missing-on-farm.js';
import { catalogue } from '../casefile/catalogue.js';
import { cow, quernholt, visit, workOut } from './a-case.js';

const today = '2026-06-10';
const day = '2026-06-02';
const isThere = (file: string) => !file.includes('missing');
const missing = (animal: Animal) => workOut(animal, today, quernholt, {}, isThere).missing;

/** A visit that leaves no gap, but for what the test changes. */
const full: Partial<Visit> = {
  gait: 1,
  found: { a: { state: 'open', top: 17, 'top-found': 'seen', wall: 43 } },
  trimmed: ['LH'],
};
const one = (more: Partial<Visit>) => cow([visit(day, { ...full, ...more })]);
const closed = (result: NonNullable<Episode['result']>, more: Partial<Visit>) => ({
  ...one(more),
  episodes: [{ ended: '2026-06-05', result }],
});
const medicine = {
  product: 'Spray K',
  class: 'medicine',
  batch: 'K118',
  'milk-days': 0,
  'meat-days': 0,
} as const;
const { batch: _batch, ...noBatch } = medicine;
const { class: _class, ...noClass } = medicine;
const { 'meat-days': _meat, ...noMeat } = medicine;
const sole = { file: 'photos/1.jpg', foot: 'LH', claw: 'outer', view: 'sole', when: 'after' } as const;

const cases: Partial<Record<MissingId, { raises: Animal; nearMiss: Animal }>> = {
  'gap/no-length': {
    raises: one({ found: { a: { state: 'open' } } }),
    nearMiss: one({ found: { a: { state: 'open', 'top-found': 'higher' } } }),
  },
  'gap/top-found-not-said': {
    raises: one({ found: { a: { state: 'open', top: 17 } } }),
    nearMiss: one({ found: { a: { state: 'open', top: 17, 'top-found': 'felt' } } }),
  },
  'gap/product-without-batch': {
    raises: one({ products: [noBatch] }),
    nearMiss: one({ products: [{ ...noBatch, class: 'not a medicine' }] }),
  },
  'gap/product-without-class': {
    raises: one({ products: [noClass] }),
    nearMiss: one({ products: [medicine] }),
  },
  'gap/product-without-withdrawal': {
    raises: one({ products: [noMeat] }),
    nearMiss: one({ products: [{ ...noMeat, class: 'not a medicine' }] }),
  },
  'gap/recheck-passed': {
    raises: one({ recheck: '2026-06-09' }),
    nearMiss: one({ recheck: today }),
  },
  'gap/block-past-its-time': {
    raises: cow([visit('2026-04-28', { ...full, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] })]),
    nearMiss: cow([
      visit('2026-04-29', { ...full, blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }),
    ]),
  },
  'gap/wrap-past-its-time': {
    raises: one({ wraps: [{ foot: 'RH', event: 'fitted' }] }),
    nearMiss: cow([visit('2026-06-03', { ...full, wraps: [{ foot: 'RH', event: 'fitted' }] })]),
  },
  'gap/closed-with-block-on': {
    raises: closed('recovered, not lame', { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] }),
    nearMiss: closed('recovered, not lame', { blocks: [{ foot: 'LH', claw: 'inner', event: 'lost' }] }),
  },
  'gap/closed-with-wrap-on': {
    raises: closed('sold', { wraps: [{ foot: 'LH', event: 'fitted' }] }),
    nearMiss: closed('died', { wraps: [{ foot: 'LH', event: 'fitted' }] }),
  },
  'gap/sound-not-shown': {
    raises: closed('sound', { gait: 1 }),
    nearMiss: closed('recovered, not lame', { gait: 1 }),
  },
  'gap/no-gait-score': {
    raises: cow([visit(day, { found: full.found, trimmed: ['LH'] })]),
    nearMiss: one({}),
  },
  'gap/lame-without-pain-relief-word': {
    raises: one({ gait: 2 }),
    nearMiss: one({ gait: 2, 'pain-relief': 'farm declined' }),
  },
  'gap/photo-missing': {
    raises: one({ photos: [{ file: 'photos/missing.jpg' }] }),
    nearMiss: one({ photos: [{ file: 'photos/1.jpg' }] }),
  },
  'gap/no-after-trim-picture': {
    raises: cow([visit('2026-05-05', { ...full, photos: [sole] }), visit(day, full)]),
    nearMiss: cow([
      visit('2026-05-05', { ...full, photos: [{ ...sole, when: 'before' }] }),
      visit(day, full),
    ]),
  },
  'gap/farm-task-not-reported': {
    raises: one({ 'ask-farm': [{ what: 'block watch', by: '2026-06-09' }] }),
    nearMiss: one({ 'ask-farm': [{ what: 'block watch', by: today }] }),
  },
  'gap/vet-answer-awaited': {
    raises: one({ vet: { asked: day, why: 'heat' } }),
    nearMiss: cow([
      visit(day, { ...full, vet: { asked: day, why: 'heat' } }),
      visit('2026-06-04', { kind: 'report', 'vet-answer': { to: day, by: 'the practice', reply: 'seen' } }),
    ]),
  },
  'gap/treated-without-product': {
    raises: one({ 'pain-relief': 'given', products: [{ ...medicine, lesion: 'a' }] }),
    nearMiss: one({ 'pain-relief': 'given', products: [medicine] }),
  },
  'gap/medicine-without-prescriber': {
    raises: one({ products: [{ ...medicine, class: 'not a medicine', active: 'tylosin' }] }),
    nearMiss: one({ products: [{ ...medicine, active: 'tylosin', 'prescribed-by': 'Una Strake' }] }),
  },
  'gap/left-under-withdrawal': {
    raises: {
      ...one({ products: [{ ...medicine, 'meat-days': 3 }] }),
      episodes: [{ ended: '2026-06-05', result: 'sold' }],
    },
    nearMiss: {
      ...one({ products: [{ ...medicine, 'meat-days': 3 }] }),
      episodes: [{ ended: '2026-06-06', result: 'sold' }],
    },
  },
  'gap/missed-without-why': {
    raises: cow([visit('2026-05-05', full), visit(day, { kind: 'missed' })]),
    nearMiss: cow([visit('2026-05-05', full), visit(day, { kind: 'missed', why: 'calving' })]),
  },
};

it('a full record has no gap', () => {
  expect(missing(one({}))).toEqual([]);
});

describe.each(Object.entries(cases))('%s', (id, { raises, nearMiss }) => {
  it('is listed for its record', () => {
    expect(missing(raises).map((gap) => gap.id)).toContain(id);
  });
  it('is not listed for its near miss', () => {
    expect(missing(nearMiss).map((gap) => gap.id)).not.toContain(id);
  });
});

it.each<[MissingId, string, string, string, object]>([
  ['gap/no-length', 'serious', 'visits.0.found.a', day, { lesion: 'a', day, what: 'top' }],
  ['gap/top-found-not-said', 'worth closing', 'visits.0.found.a', day, { lesion: 'a', day }],
  ['gap/product-without-batch', 'worth closing', 'visits.0.products.0', day, { product: 'Spray K', count: 1 }],
  ['gap/product-without-class', 'worth closing', 'visits.0.products.0', day, { product: 'Spray K' }],
  ['gap/product-without-withdrawal', 'serious', 'visits.0.products.0', day, { count: 1, which: 'meat' }],
  ['gap/recheck-passed', 'serious', 'visits.0.recheck', '2026-06-09', { days: 1 }],
  ['gap/block-past-its-time', 'serious', 'visits.0.blocks.0', today, { foot: 'LH', claw: 'inner', day: '2026-04-28', days: 43 }],
  ['gap/wrap-past-its-time', 'serious', 'visits.0.wraps.0', today, { foot: 'RH', day, days: 8 }],
  ['gap/closed-with-block-on', 'serious', 'visits.0.blocks.0', '2026-06-05', { foot: 'LH', claw: 'inner', day }],
  ['gap/closed-with-wrap-on', 'serious', 'visits.0.wraps.0', '2026-06-05', { foot: 'LH', day, which: 'left' }],
  ['gap/sound-not-shown', 'serious', 'episodes.0.result', '2026-06-05', { which: 'not-soundest', needed: 7, score: 1 }],
  ['gap/no-gait-score', 'worth closing', 'visits.0', day, { day }],
  ['gap/lame-without-pain-relief-word', 'worth closing', 'visits.0', day, { score: 2, count: 1 }],
  ['gap/photo-missing', 'worth closing', 'visits.0.photos.0.file', day, { file: 'photos/missing.jpg' }],
  ['gap/no-after-trim-picture', 'minor', 'visits.1', day, { foot: 'LH', claw: 'outer', view: 'sole' }],
  ['gap/farm-task-not-reported', 'worth closing', 'visits.0.ask-farm.0', '2026-06-09', { task: 'block watch', asked: day }],
  ['gap/vet-answer-awaited', 'worth closing', 'visits.0.vet', day, { reason: 'heat' }],
  ['gap/treated-without-product', 'serious', 'visits.0.pain-relief', day, { count: 1 }],
  ['gap/medicine-without-prescriber', 'serious', 'visits.0.products.0', day, { product: 'Spray K' }],
  ['gap/left-under-withdrawal', 'serious', 'episodes.0.result', '2026-06-05', { result: 'sold', which: 'sold' }],
  ['gap/missed-without-why', 'minor', 'visits.1', day, { day }],
])('%s is %s, and leads to %s', (id, grade, path, since, values) => {
  const [told, ...more] = missing(cases[id]!.raises).filter((entry) => entry.id === id);
  expect(more).toEqual([]);
  expect(told).toMatchObject({ grade, since, values });
  expect(told?.path.join('.')).toBe(path);
}); // prettier-ignore

it('each says where it can be put right, and the most serious come first', () => {
  for (const id of missingIds)
    expect(['in-the-record', 'next-lift', 'by-asking']).toContain(missingEntry(id, [], day, {}).closable);
  const three = cow([
    visit('2026-05-05', { ...full, photos: [sole] }),
    visit(day, {
      found: { a: { state: 'open', top: 17, wall: 43 } },
      trimmed: ['LH'],
      recheck: '2026-06-09',
    }),
  ]);
  expect(missing(three).map(({ id, grade }) => [id, grade])).toEqual([
    ['gap/recheck-passed', 'serious'],
    ['gap/top-found-not-said', 'worth closing'],
    ['gap/no-gait-score', 'worth closing'],
    ['gap/no-after-trim-picture', 'minor'],
  ]);
});

it('milkings that cannot be counted are the farm’s gap', () => {
  const animal = one({
    products: [{ product: 'x', class: 'medicine', batch: 'k', 'milk-milkings': 4, 'meat-days': 0 }],
  });
  const source = { file: 'farm.md', placeOf: () => ({ line: 1, column: 1 }) };
  const record = { slug: '2041', animal, narrative: '', source };
  const of = (milkings?: number) =>
    missingOnFarm(
      {
        slug: 'quernholt',
        farm: { farm: 'Quernholt', ...(milkings ? { 'milkings-a-day': milkings } : {}) },
        narrative: '',
        source,
        cases: [record],
      },
      today,
    ).map(({ id }) => id);
  expect(of()).toEqual(['gap/milkings-a-day-not-given']);
  expect(of(2)).toEqual([]);
  const two = [record, { ...record, slug: '2042', animal: { ...animal, animal: '2042' } }];
  const farm = { slug: 'quernholt', farm: { farm: 'Quernholt' }, narrative: '', source, cases: two };
  expect(missingOnFarm(farm, today)).toMatchObject([
    { grade: 'serious', path: ['farm'], since: day, values: { animal: '2041', product: 'x', day } },
  ]);
});

it('an antimicrobial in the footbath is the farm’s gap', () => {
  const source = { file: 'farm.md', placeOf: () => ({ line: 1, column: 1 }) };
  const of = (product: string, from: string) =>
    missingOnFarm(
      {
        slug: 'quernholt',
        farm: { farm: 'Quernholt', footbath: [{ product, from }] },
        narrative: '',
        source,
        cases: [],
      },
      today,
    ).map(({ id }) => id);
  expect(of('oxytetracycline 5 g/l', today)).toHaveLength(1);
  expect(of('oxytetracycline 5 g/l', '2026-06-01')).toEqual(['gap/antibiotic-in-footbath']);
  expect(of('oxytetracycline 5 g/l', '2026-06-11')).toEqual([]);
  expect(of('copper sulphate', '2026-06-01')).toEqual([]);
});

it('of one cow, what lacks at many visits is one line', () => {
  const lame = { ...full, gait: 2, products: [noMeat, { ...noMeat, active: 'tylosin' }] };
  const animal = cow([
    visit('2026-05-05', lame),
    visit('2026-05-19', { ...lame, gait: 3 }),
    visit(day, { ...lame, 'pain-relief': 'given', products: [{ ...noMeat, lesion: 'a' }] }),
    visit('2026-06-09', { ...full, 'pain-relief': 'given' }),
  ]);
  expect(missing(animal).map(({ id, grade, values, path }) => [id, grade, values['count'], path[1]])).toEqual(
    [
      ['gap/product-without-withdrawal', 'serious', 5, 0],
      ['gap/medicine-without-prescriber', 'serious', 2, 0],
      ['gap/treated-without-product', 'serious', 2, 2],
      ['gap/lame-without-pain-relief-word', 'serious', 2, 0],
    ],
  );
});

it('a recheck that passed is asked after until a foot is lifted again', () => {
  const passed = (...more: Visit[]) =>
    missing(cow([visit('2026-05-05', { ...full, recheck: '2026-05-20' }), ...more]))
      .filter(({ id }) => id === 'gap/recheck-passed')
      .map(({ values, path }) => [values['day'], values['days'], path[1]]);
  expect(passed()).toEqual([['2026-05-20', 21, 0]]);
  expect(passed(visit('2026-05-12', { ...full, kind: 'report' }))).toHaveLength(1);
  expect(passed(visit('2026-05-12', full))).toEqual([]);
  expect(passed(visit('2026-05-12', { ...full, recheck: '2026-06-09' }))).toEqual([['2026-06-09', 1, 1]]);
});

it('a picture is asked for from the day of its visit on', () => {
  const animal = one({ photos: [{ file: 'photos/missing.jpg' }] });
  const on = (now: string) => workOut(animal, now, quernholt, {}, isThere).missing.map(({ id }) => id);
  expect(on(day)).toContain('gap/photo-missing');
  expect(on('2026-06-01')).not.toContain('gap/photo-missing');
});

it('every gap is tried here and is in the catalogue', () => {
  const tried = new Set([
    ...Object.keys(cases),
    'gap/milkings-a-day-not-given',
    'gap/antibiotic-in-footbath',
  ]);
  expect(missingIds.filter((id) => !tried.has(id))).toEqual([]);
  expect(missingIds.filter((id) => !catalogue().has(id))).toEqual([]);
});

const grade = (animal: Animal) => missing(animal).find(({ id }) => id === 'gap/no-length')?.grade;

it('never measured is serious; measured before and not now is worth closing', () => {
  expect(grade(one({ found: { a: { state: 'open' } } }))).toBe('serious');
  const before = visit('2026-05-05', full);
  expect(grade(cow([before, visit(day, { ...full, found: { a: { state: 'open' } } })]))).toBe(
    'worth closing',
  );
});

it('a covered gap still has a top to measure; a covered ulcer has no width', () => {
  const covered = (code: 'WL' | 'SU', state: 'open' | 'covered') => ({
    ...one({ found: { a: { state } } }),
    lesions: { a: { code, foot: 'LH', claw: 'outer', line: 'heel' } } as const,
  });
  expect(grade(covered('WL', 'covered'))).toBe('serious');
  expect(grade(covered('SU', 'open'))).toBe('serious');
  expect(grade(covered('SU', 'covered'))).toBeUndefined();
});

it('of a closed case only its end, products and pictures are asked after', () => {
  const animal = cow(
    [visit(day, { gait: 2, found: { a: { state: 'open' } }, products: [noBatch], recheck: day })],
    {
      episodes: [{ ended: '2026-06-05', result: 'sold' }],
    },
  );
  expect(missing(animal).map(({ id }) => id)).toEqual(['gap/product-without-batch']);
});

it('the path leads to the place', () => {
  expect(missing(one({ recheck: '2026-06-09' }))[0]?.path).toEqual(['visits', 0, 'recheck']);
});

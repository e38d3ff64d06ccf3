import { expect, test } from 'vitest';
import { quarterEnd } from '../../src/growth/learning/priors-for.js';
import { pooledOf, pooledOn } from '../../src/herd/pooled-on.js';
import { digestOf, type FarmDigest, farmDigest } from '../../src/herd/farm-digest.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { FarmRecord } from '../../src/record/practice.js';
import { demo, today as demoDay } from '../demo/read-demo.js';
import { cow, herd, practiceOf, visit } from './invented-herd.js';

const today = '2026-06-16';
const upTo = quarterEnd(today);

/** A cow measured twice and then found healed, her walk scored each time; every second one has a file on another farm too. */
const measured = (at: number) =>
  cow(
    `${100 + at}`,
    [0, 80, 184].map((day, visits) =>
      visit(addDays('2025-08-01', 3 * at + day), {
        gait: visits === 2 ? 0 : 2,
        found: { a: visits === 2 ? { state: 'healed' } : { state: 'open', top: 10 + at + 14 * visits, 'top-found': 'seen', wall: 75, tool: 'ruler' } }, // prettier-ignore
      }),
    ),
    at % 2 ? {} : { tag: `UK 000123 4${at}` },
  );

const farms = ['quernholt', 'harrowmere', 'sallowby', 'nettlecombe'].map((slug, farm) =>
  herd(slug, [1, 2, 3, 4, 5, 6].map((at) => measured(at + farm))),
); // prettier-ignore
const digests = (of: readonly FarmRecord[]) => of.map((farm) => digestOf(farm, upTo));

/** Every number that is pooled, and the prior of every cow. */
const numbersOf = (given: readonly FarmDigest[]) => {
  const { priors, record, figures } = pooledOf(given, upTo);
  const held = farms.flatMap(({ slug, cases }) => cases.map((one) => priors.priorOf(slug, one.slug)));
  return { learned: priors.learned, held, record, figures };
};
const thereAndBack = (digest: FarmDigest) => farmDigest.parse(JSON.parse(JSON.stringify(digest)));

test('a digest is the same after JSON and back, and so is every number pooled from it', () => {
  const pooled = numbersOf(digests(farms));
  expect(pooled.learned.cows).toBeGreaterThan(5);
  expect(pooled.record.forecasts).toBeGreaterThan(10);
  expect(pooled.figures!.healed[0]!.curve).toBeDefined();
  expect(pooled.figures!.notLame.come).toBeGreaterThan(5);
  expect(numbersOf(digests(farms).map(thereAndBack))).toEqual(pooled);
});

test('the digests of farms, in any order, with their files in any order, give the same numbers to the last bit', () => {
  const backwards = farms.map((farm) => ({ ...farm, cases: farm.cases.toReversed() })).toReversed();
  expect(numbersOf(digests(backwards))).toEqual(numbersOf(digests(farms)));
});

test('a visit after its day changes no byte of a digest, one on its day does', () => {
  const [farm] = farms;
  const seen = (day: string) => {
    const [first, ...others] = farm!.cases;
    const visits = [...first!.animal.visits, visit(day, { gait: 2, found: { a: { state: 'open' } } })];
    const cases = [{ ...first!, animal: { ...first!.animal, visits } }, ...others];
    return JSON.stringify(digestOf({ ...farm!, cases }, upTo));
  };
  expect(seen(addDays(upTo, 1))).toBe(JSON.stringify(digestOf(farm!, upTo)));
  expect(seen(upTo)).not.toBe(JSON.stringify(digestOf(farm!, upTo)));
});

test('a digest of another version, or with a part that is no part of it, is refused', () => {
  const whole = thereAndBack(digests(farms)[0]!);
  expect(farmDigest.safeParse(whole).success).toBe(true);
  expect(farmDigest.safeParse({ ...whole, version: whole.version + 1 }).success).toBe(false);
  expect(farmDigest.safeParse({ ...whole, extra: 1 }).success).toBe(false);
});

test('what is read of a digest is worked out, and nothing before', () => {
  const [first] = farms[0]!.cases;
  const broken = { ...first!, animal: { ...first!.animal, lesions: { a: undefined! } } };
  const [one] = digestOf({ ...farms[0]!, cases: [broken] }, upTo).cases;
  expect(one!.marks).toHaveLength(3);
  expect(() => one!.healed).toThrow();
});

test('the digest of a case of the demo is under 800 bytes on average, and none over 1,500', () => {
  const cases = demo.practice.farms.flatMap((farm) => digestOf(farm, quarterEnd(demoDay)).cases);
  const bytes = cases.map((one) => JSON.stringify(one).length);
  expect(bytes.reduce((sum, each) => sum + each, 0) / cases.length).toBeLessThan(800);
  expect(Math.max(0, ...bytes)).toBeLessThan(1500);
});

test('pooling a practice is pooling its farms’ digests at the end of the last quarter', () => {
  const { priors, record, figures, upTo: day } = pooledOn(practiceOf(...farms), today);
  const pooled = numbersOf(digests(farms));
  expect(day).toBe(upTo);
  expect([priors.learned, record, figures]).toEqual([pooled.learned, pooled.record, pooled.figures]);
});

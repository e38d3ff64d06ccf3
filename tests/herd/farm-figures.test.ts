import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { farmFigures } from '../../src/herd/farm-figures.js';
import { dayKinds } from '../../src/herd/lame-days.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { FarmRecord } from '../../src/record/practice.js';
import type { Visit } from '../../src/record/visit.js';
import { cow, herd, practiceOf, visit } from './invented-herd.js';

const start = '2025-01-01';
const today = '2026-06-01';

/** Visits by days apart, each with a state of the gap, a score, and perhaps a block put on or taken off. */
const visits = fc
  .array(
    fc.record({
      apart: fc.integer({ min: 1, max: 60 }),
      state: fc.constantFrom('open' as const, 'covered' as const, 'healed' as const),
      gait: fc.option(fc.integer({ min: 0, max: 3 })),
      block: fc.option(fc.constantFrom('fitted' as const, 'removed' as const)),
      report: fc.boolean(),
    }),
    { minLength: 1, maxLength: 8 },
  )
  .map((drawn) => {
    let day = start;
    return drawn.map(({ apart, state, gait, block, report }): Visit => {
      day = addDays(day, apart);
      return visit(day, {
        ...(report ? { kind: 'report' as const } : {}),
        ...(gait === null ? {} : { gait }),
        ...(block ? { blocks: [{ foot: 'LH', claw: 'inner', event: block }] } : {}),
        found: { a: { state } },
      });
    });
  });
const animals = fc
  .array(visits, { minLength: 1, maxLength: 9 })
  .map((drawn) => drawn.map((seen, at) => cow(`${100 + at}`, seen)));

/** A third farm, without cases: with two, one could be told from the figures of both. */
const nettlecombe = herd('nettlecombe', []);

function figures(own: readonly Animal[], other: FarmRecord, day = today, from = start) {
  const farm = herd('quernholt', own, { herd: [{ from, cows: 120 }], hemisphere: 'north' });
  const all = pooledOn(practiceOf(farm, other, nettlecombe), day).figures;
  return { ...farmFigures(farm, day), business: all };
}

const harrowmere = herd('harrowmere', [
  cow('901', [visit('2026-01-01', { gait: 2, found: { a: { state: 'open' } } })]),
]);

test('the order of the files does not matter', () => {
  fc.assert(
    fc.property(animals, (all) => {
      const sorted = (one: ReturnType<typeof figures>) => ({
        ...one,
        lameDays: one.lameDays.toSorted((a, b) => (a.slug < b.slug ? -1 : 1)),
      });
      expect(sorted(figures(all.toReversed(), harrowmere))).toEqual(sorted(figures(all, harrowmere)));
    }),
    { numRuns: 40 },
  );
});

test('shifting every day by whole weeks changes no number of days', () => {
  fc.assert(
    fc.property(animals, fc.integer({ min: 1, max: 200 }), (all, weeks) => {
      const by = weeks * 7;
      const moved = all.map((one) => ({
        ...one,
        visits: one.visits.map((each) => ({ ...each, date: addDays(each.date, by) })),
      }));
      const numbers = ({ farm, lameDays, rates }: ReturnType<typeof figures>) => ({
        healed: farm.healed.map(({ curve, come, cases }) => [curve, come, cases.map(({ days }) => days)]),
        sound: farm.sound.cases.map(({ days }) => days),
        recurrence: farm.recurrence,
        work: farm.work,
        lame: lameDays.map(({ days }) => days),
        rate: rates?.all,
      });
      const after = figures(moved, harrowmere, addDays(today, by), addDays(start, by));
      expect(numbers(after)).toEqual(numbers(figures(all, harrowmere)));
    }),
    { numRuns: 40 },
  );
});

test('no figure leaves its bounds', () => {
  fc.assert(
    fc.property(animals, (all) => {
      const { farm, rates, lameDays } = figures(all, harrowmere);
      for (const { cases, count, come, curve, lasting } of farm.healed) {
        expect(count + lasting).toBeLessThanOrEqual(all.length);
        expect(come).toBeLessThanOrEqual(count);
        if (curve) expect(count).toBeGreaterThanOrEqual(5);
        if (curve) expect(curve.knownTo).toBeGreaterThan(0);
        for (const { lower, upper } of curve?.bounds ?? []) expect(upper - lower).toBeLessThanOrEqual(0.5);
        for (const { days } of cases) expect(days.by).toBeGreaterThanOrEqual(days.after);
        if (curve) expect(curve.boxes.reduce((sum, { mass }) => sum + mass, 0)).toBeLessThan(1 + 1e-9);
      }
      expect(farm.recurrence.cameBack).toBeLessThanOrEqual(farm.recurrence.seenAgain);
      expect(farm.recurrence.seenAgain).toBeLessThanOrEqual(farm.recurrence.settled);
      for (const { days } of lameDays)
        for (const kind of dayKinds) expect(days[kind]).toBeGreaterThanOrEqual(0);
      if (rates?.all.per100) {
        expect(rates.all.per100.low).toBeLessThanOrEqual(rates.all.per100.value);
        expect(rates.all.per100.high).toBeGreaterThan(rates.all.per100.value);
      }
    }),
    { numRuns: 60 },
  );
});

test('the business counts all farms and names none of the others', () => {
  const all = ['101', '102', '103', '104'].map((number) =>
    cow(number, [visit('2026-01-01', { gait: 2, found: { a: { state: 'open' } } })]),
  );
  const told = figures(all, harrowmere);
  expect(told.farm.healed[0]).toMatchObject({ count: 4, animals: 4 });
  expect(told.farm.healed[0]!.curve).toBeUndefined();
  expect(told.business!.healed[0]).toMatchObject({ count: 5, animals: 5, cases: [] });
  expect(told.business!.sound).toMatchObject({ count: 5, cases: [] });
  expect(JSON.stringify(told)).not.toMatch(/harrowmere|901/i);
  const alone = herd('quernholt', all);
  expect(pooledOn(practiceOf(alone), today).figures).toBeUndefined();
  expect(pooledOn(practiceOf(alone, harrowmere), today).figures).toBeUndefined();
});

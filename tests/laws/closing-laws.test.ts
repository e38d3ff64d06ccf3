import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import { closingOfUlcer } from '../../src/healing/closing/closing-of-ulcer.js';
import type { UlcerClosing } from '../../src/healing/closing/ulcer-closing.js';
import { animalWith, visit } from '../growth/invented-animal.js';

const settings = { seed: 20261125, numRuns: 100 };

const story = fc
  .array(
    fc.record({
      after: fc.integer({ min: 3, max: 50 }),
      mm: fc.integer({ min: 0, max: 35 }),
      tool: fc.constantFrom('calliper', 'ruler', 'photo', 'eye'),
      by: fc.constantFrom('Orla Venn', 'Fenn Arkwell'),
      state: fc.constantFrom('open', 'open', 'open', 'covered'),
    }),
    { minLength: 1, maxLength: 9 },
  )
  .map((steps): Animal => {
    let date = '2024-02-01';
    const visits = steps.map(({ after, mm, tool, by, state }) =>
      visit((date = addDays(date, after)), { u: { state, width: mm, tool } }, { by }),
    );
    return animalWith(visits, { lesions: { u: { code: 'SU', foot: 'LH', claw: 'outer' } } });
  });

const closingOf = (animal: Animal, today = '2040-01-01'): UlcerClosing => closingOfUlcer(animal, 'u', today)!;

/** Without its function, every date moved back. */
const plain = ({ nextReading, ...closing }: UlcerClosing, back = 0): unknown =>
  JSON.parse(
    JSON.stringify({ ...closing, next: nextReading(addDays('2040-01-01', back)) }),
    (_, value: unknown) =>
      typeof value === 'string' && /^\d{4}-\d\d-\d\d$/.test(value) ? addDays(value, -back) : value,
  );

test('shifting every date shifts every date and nothing else: no season', () => {
  fc.assert(
    fc.property(story, fc.integer({ min: -400, max: 4000 }), (animal, days) => {
      const later = {
        ...animal,
        visits: animal.visits.map((one) => ({ ...one, date: addDays(one.date, days) })),
      };
      expect(plain(closingOf(later, addDays('2040-01-01', days)), days)).toEqual(plain(closingOf(animal)));
    }),
    settings,
  );
});

test('what is written after a day does not change what was known on it', () => {
  fc.assert(
    fc.property(story, fc.nat(), (animal, pick) => {
      const known = animal.visits[pick % animal.visits.length]!.date;
      const cut = { ...animal, visits: animal.visits.filter(({ date }) => date <= known) };
      expect(plain(closingOf(animal, known))).toEqual(plain(closingOf(cut, known)));
    }),
    settings,
  );
});

test('every range is in order; there is a date or a reason; how fast she closes only gets surer', () => {
  fc.assert(
    fc.property(story, (animal) => {
      const { forecast, factor, readings } = closingOf(animal);
      expect(factor.variance).toBeGreaterThan(0);
      expect(factor.variance).toBeLessThanOrEqual(0.16 + 1e-12);
      expect(readings.every(({ z }) => z === undefined || Number.isFinite(z))).toBe(true);
      if (forecast.outcome === 'none') return;
      const { early, best, late } = forecast.days;
      expect(early ?? Infinity).toBeLessThanOrEqual(best ?? Infinity);
      expect(best ?? Infinity).toBeLessThanOrEqual(late ?? Infinity);
    }),
    settings,
  );
});

test('an ulcer found closed leaves the next run nothing but how fast she closes', () => {
  fc.assert(
    fc.property(story, (animal) => {
      const { readings, cameBack, closed } = closingOf(animal);
      expect(cameBack.length).toBeLessThanOrEqual(closed.length);
      expect(readings.filter(({ kind }) => kind === 'came-back').length).toBeLessThanOrEqual(cameBack.length);
      for (const { kind, expectedMm } of readings)
        expect(expectedMm === undefined).toBe(kind === 'first' || kind === 'came-back');
    }),
    settings,
  );
});

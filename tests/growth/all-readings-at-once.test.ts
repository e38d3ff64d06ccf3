import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { addDays, dayNumber } from '../../src/record/calendar-day.js';
import type { Lesion } from '../../src/record/lesion.js';
import type { Visit } from '../../src/record/visit.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { type BatchLine, allReadingsAtOnce } from './all-readings-at-once.js';
import { animalWith, growthOf, top } from './invented-animal.js';

const monthDays = 30.4375;
const kinds = { ruler: 2, calliper: 1, photo: 3.5 } as const;
const lineNumbers = { dorsal: [5.3, 0.05], abaxial: [6, 0.08], heel: [6, 0.13], axial: [6, 0.13] } as const;

const drawn = fc.record({
  lines: fc.array(fc.constantFrom('dorsal', 'abaxial', 'heel', 'axial'), { minLength: 1, maxLength: 3 }),
  steps: fc.array(fc.integer({ min: 10, max: 60 }), { minLength: 2, maxLength: 5 }),
  factor: fc.double({ min: 0.85, max: 1.15, noNaN: true }),
  errors: fc.array(fc.integer({ min: -2, max: 2 }), { minLength: 18, maxLength: 18 }),
  tools: fc.array(fc.constantFrom('ruler', 'calliper', 'photo'), { minLength: 18, maxLength: 18 }),
});

// The filter takes one reading after the other; here all are conditioned on at once. Same model, other algorithm:
// what differs is rounding, 1e-9 mm.
test('taking readings one by one knows as much as taking all at once', () => {
  let compared = 0;
  fc.assert(
    fc.property(drawn, ({ lines, steps, factor, errors, tools }) => {
      const names = lines.map((_, index) => `l${index}`);
      const lesions = Object.fromEntries(
        lines.map((line, index): [string, Lesion] => [
          names[index]!,
          { code: 'WL', foot: 'LH', claw: 'outer', line },
        ]),
      );
      const batch: BatchLine[] = lines.map((line) => {
        const [rate, deviation] = lineNumbers[line];
        return { rate, deviation, readings: [] };
      });
      let date = '2026-01-05';
      const visits = [0, ...steps].map((step, k): Visit => {
        date = addDays(date, step);
        const months = (dayNumber(date) - dayNumber('2026-01-05')) / monthDays;
        const found = names.map((name, index) => {
          const which = k * lines.length + index;
          const tool = tools[which]!;
          const mm = 8 + batch[index]!.rate * factor * months + errors[which]!;
          batch[index]!.readings.push({ months, mm, sigmaMm: kinds[tool] });
          return [name, top(mm, { tool })] as const;
        });
        return { date, kind: 'recheck', by: 'Orla Venn', found: Object.fromEntries(found) };
      });
      const growth = growthOf(animalWith(visits, { lesions }));
      const plain = growth.lesions.every(({ readings }) =>
        readings.every(({ kind, unused }, k) => kind === (k === 0 ? 'first' : 'grew') && !unused),
      );
      fc.pre(plain);
      compared++;
      const ahead = addDays(date, 42);
      for (const [index, lesion] of growth.lesions.entries()) {
        const months = (dayNumber(ahead) - dayNumber('2026-01-05')) / monthDays;
        const { factor: learned, next } = allReadingsAtOnce(publishedPrior, batch, { line: index, months });
        expect(growth.factor.mean).toBeCloseTo(learned.mean, 9);
        expect(growth.factor.variance).toBeCloseTo(learned.variance, 9);
        expect(lesion.expectedOn(ahead)!.meanMm).toBeCloseTo(next.mean, 9);
        expect(lesion.expectedOn(ahead)!.sdMm ** 2).toBeCloseTo(next.variance, 9);
      }
    }),
    { seed: 20261125, numRuns: 200 },
  );
  expect(compared).toBeGreaterThan(150);
});

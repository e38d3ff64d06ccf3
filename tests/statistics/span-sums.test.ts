import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { spanTable, sumInSpans, sumOverBoxes } from '../../src/statistics/npmle-masses.js';

const boxes = 12;
const span = fc
  .tuple(fc.integer({ min: 0, max: boxes - 1 }), fc.integer({ min: 1, max: boxes }))
  .map(([first, width]) => ({ first, end: Math.min(boxes, first + width), count: 1 }));
// Masses of very different size, so that a difference of running totals would lose the small ones.
const mass = fc
  .tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -14, max: 0 }))
  .map(([digits, power]) => digits * 10 ** power);

test('sums in spans and over boxes are those made box by box', () => {
  fc.assert(
    fc.property(
      fc.array(span, { minLength: 1, maxLength: 9 }),
      fc.array(mass, { minLength: boxes, maxLength: boxes }),
      (spans, masses) => {
        const table = spanTable(spans, boxes);
        const sums = sumInSpans(table, Float64Array.from(masses));
        spans.forEach(({ first, end }, i) => {
          const slow = masses.slice(first, end).reduceRight((sum, value) => sum + value, 0);
          expect(Math.abs(sums[i]! / slow - 1)).toBeLessThan(1e-13);
        });
        const perSpan = spans.map((_, i) => i + 1);
        const over = sumOverBoxes(table, Float64Array.from(perSpan));
        expect([...over]).toEqual(
          masses.map((_, box) =>
            perSpan
              .filter((__, i) => spans[i]!.first <= box && box < spans[i]!.end)
              .reduce((a, b) => a + b, 0),
          ),
        );
      },
    ),
    { seed: 20261125, numRuns: 200 },
  );
});

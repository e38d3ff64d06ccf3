import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Found, Visit } from '../../src/record/visit.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { cow, herd, visit } from '../herd/invented-herd.js';

/** Any story of a gap, an ulcer and dermatitis, with blocks, walks, products and what was asked of whom. */
const story = fc
  .array(
    fc.record({
      after: fc.integer({ min: 3, max: 60 }),
      top: fc.option(fc.integer({ min: 0, max: 38 }), { nil: undefined }),
      width: fc.integer({ min: 0, max: 25 }),
      ulcer: fc.constantFrom('open', 'open', 'covered'),
      stage: fc.constantFrom('M1', 'M2', 'M4', 'M4.1', 'M0'),
      gait: fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined }),
      more: fc.constantFrom<Partial<Visit>>(
        {},
        { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted', material: 'wood' }] },
        { blocks: [{ foot: 'LH', claw: 'inner', event: 'removed', 'carrying-claw': 'sound' }] },
        { wraps: [{ foot: 'RH', event: 'fitted' }] },
        { products: [{ product: 'as on the label', class: 'medicine', 'milk-days': 4, 'meat-days': 9 }] },
        { feet: { LH: { signs: ['heat', 'swollen above foot'] } } },
        { 'pain-relief': 'asked' },
      ),
      asked: fc.boolean(),
    }),
    { minLength: 1, maxLength: 7 },
  )
  .map((steps): Animal => {
    let date = '2024-02-01';
    const visits = steps.map(({ after, top, width, ulcer, stage, gait, more, asked }, at) => {
      date = addDays(date, after);
      const found: Record<string, Found> = {
        a: {
          state: 'open',
          tool: 'ruler',
          width,
          ...(top === undefined ? {} : { top, 'top-found': 'seen', wall: 42 }),
        },
        u: { state: ulcer, tool: 'ruler', length: width + 2, width },
        c: { stage, tool: 'ruler', length: width + 1, width },
      };
      return visit(date, {
        kind: at === 0 ? 'first' : 'recheck',
        found,
        ...(gait === undefined ? {} : { gait }),
        ...more,
        ...(asked
          ? {
              vet: { asked: date, why: 'as found' },
              'ask-farm': [{ what: 'block watch', by: addDays(date, 7) }],
              recheck: addDays(date, 28),
            }
          : {}),
      });
    });
    return cow('2086', visits, {
      born: '2019-05-02',
      calvings: ['2022-03-01', '2024-03-15'],
      'due-to-calve': '2025-04-01',
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' },
        u: { code: 'SU', foot: 'RH', claw: 'outer', site: 'sole-heel junction' },
        c: { code: 'DD', foot: 'RF', site: 'skin behind heels' },
      },
    });
  });

/** Every written day moved. */
function moved<T>(value: T, days: number): T {
  return JSON.parse(JSON.stringify(value), (_, inside: unknown) =>
    typeof inside === 'string'
      ? inside.replaceAll(/\b\d{4}-\d\d-\d\d\b/g, (day) => addDays(day, days))
      : inside,
  ) as T;
}

function workedOut(animal: Animal, today: string): object {
  const farm = herd('quernholt', [animal], { herd: [{ cows: 120 }] });
  const { standing, due, notices, missing } = workOutCase(farm, farm.cases[0]!, {
    business: {},
    today,
    prior: publishedPrior,
  });
  return { standing, due, notices, missing };
}

test('without season, shifting every date shifts every date of a case: her status, what is due, for the vet, missing', () => {
  fc.assert(
    fc.property(
      story,
      fc.integer({ min: 0, max: 90 }),
      fc.integer({ min: -400, max: 4000 }),
      (animal, later, days) => {
        const today = addDays(animal.visits.at(-1)!.date, later);
        const plain = JSON.parse(JSON.stringify(workedOut(animal, today))) as object;
        const shifted = workedOut(moved(animal, days), addDays(today, days));
        expect(moved(shifted, -days)).toEqual(plain);
      },
    ),
    { seed: 20261125, numRuns: 40 },
  );
});

import * as fc from 'fast-check';
import type { Animal } from '../../src/record/animal.js';
import type { Business } from '../../src/record/business.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Practice } from '../../src/record/practice.js';
import type { ProductUse, Visit } from '../../src/record/visit.js';
import { painReliefWords } from '../../src/record/words.js';
import { cow, herd } from '../herd/invented-herd.js';

const words = fc.constantFrom(
  'dry',
  'held tight',
  'kicks left',
  'née Quill',
  'a <b> & "c"',
  '=1+1',
  'heat: above',
);
const people = fc.constantFrom('Orla Venn', 'Marra Quillfen', 'Nan Thistlewrack', 'P. Wexmarrow');

/** Milk withdrawal as a label may give it, one way at most. */
const milk = fc.oneof(
  { weight: 4, arbitrary: fc.nat(8).map((days) => ({ 'milk-days': days })) },
  fc.nat(120).map((hours) => ({ 'milk-hours': hours })),
  fc.nat(9).map((milkings) => ({ 'milk-milkings': milkings })),
  fc.constant({}),
);

/** `cost` only where `withCost`: it is a price too. */
function anyProduct(date: string, withCost: boolean): fc.Arbitrary<ProductUse> {
  return fc
    .tuple(
      fc.record(
        {
          product: words,
          active: fc.constantFrom('ketoprofen', 'oxytetracycline hydrochloride', 'tar'),
          class: fc.constantFrom('medicine' as const, 'not a medicine' as const, 'not sure' as const),
          batch: words,
          until: fc.nat(3).map((days) => addDays(date, days)),
          'milk-days-after-calving': fc.nat(5),
          'given-by': people,
          ...(withCost ? { cost: fc.nat(9999).map((cents) => cents / 100) } : {}),
        },
        { requiredKeys: ['product'] },
      ),
      milk,
      fc.record({ 'meat-days': fc.nat(40) }, { requiredKeys: [] }),
    )
    .map(([use, ...periods]) => Object.assign({}, use, ...periods) as ProductUse);
}

function anyVisit(date: string, withCost: boolean): fc.Arbitrary<Visit> {
  const lifted = fc.record(
    {
      date: fc.constant(date),
      by: people,
      kind: fc.constantFrom('first' as const, 'recheck' as const, 'routine' as const),
      gait: fc.nat(3),
      found: fc.record(
        {
          a: fc.integer({ min: 5, max: 42 }).map((top) => ({ state: 'open' as const, top, wall: 43, tool: 'ruler' as const })), // prettier-ignore
          u: fc.integer({ min: 2, max: 20 }).map((width) => ({ state: 'open' as const, width, tool: 'ruler' as const })), // prettier-ignore
          c: fc.constantFrom('M1' as const, 'M2' as const, 'M4' as const).map((stage) => ({ stage })),
        },
        { requiredKeys: [] },
      ),
      blocks: fc.array(
        fc.constantFrom('fitted' as const, 'checked' as const, 'replaced' as const, 'removed' as const).map((event) => ({ foot: 'LH' as const, claw: 'inner' as const, event })), // prettier-ignore
        { maxLength: 1 },
      ),
      wraps: fc.array(fc.constant({ foot: 'RH' as const, event: 'fitted' as const }), { maxLength: 1 }),
      products: fc.array(anyProduct(date, withCost), { maxLength: 2 }),
      'pain-relief': fc.constantFrom(...painReliefWords),
      vet: words.map((why) => ({ asked: date, why })),
      'vet-answer': fc.boolean().map((treated) => ({ to: date, by: 'P. Wexmarrow', reply: 'seen', treated })),
      recheck: fc.constant(addDays(date, 28)),
      note: words,
    },
    { requiredKeys: ['date', 'by', 'kind'] },
  );
  const told = fc.record({
    date: fc.constant(date),
    by: people,
    kind: fc.constant('report' as const),
    note: words,
  });
  return fc.oneof({ weight: 5, arbitrary: lifted }, { weight: 1, arbitrary: told });
}

function anyAnimal(number: string, withCost: boolean): fc.Arbitrary<Animal> {
  return fc
    .uniqueArray(fc.oneof(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 480, max: 511 })), {
      maxLength: 6,
    })
    .map((days) => days.sort((a, b) => a - b).map((day) => addDays('2025-01-20', day)))
    .chain((days) => fc.tuple(...days.map((day) => anyVisit(day, withCost))))
    .chain((visits) =>
      fc
        .record(
          {
            calvings: fc.constantFrom<string[][]>([], ['2024-10-19'], ['2023-09-30', '2025-11-04'], ['2023-09-30', '2026-06-09']), // prettier-ignore
            'dried-off': fc.constant<string[]>(['2025-08-01']),
            'due-to-calve': fc.constantFrom('2026-07-20', '2026-12-01'),
            handling: words,
            episodes: fc.constantFrom<NonNullable<Animal['episodes']>[]>(
              [{ 'lame-since': '2025-01-10' }],
              [{ ended: '2025-12-01', result: 'sound' }],
              ...(['culled', 'sold', 'died'] as const).map((result) => [{ ended: '2026-06-15', result }]),
              [{ ended: '2026-06-15', result: 'moved', 'told-in-writing': '2026-06-16' }],
            ),
          },
          { requiredKeys: [] },
        )
        .map((more) =>
          cow(number, visits, {
            ...more,
            lesions: {
              a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
              u: { code: 'SU', foot: 'RH', claw: 'outer' },
              c: { code: 'DD', foot: 'RH' },
            },
          }),
        ),
    );
}

/** A business of two farms with some cows, with the prices given, or with none and no product's own cost either. */
export function anyPractice(prices: Business['prices'] | undefined): fc.Arbitrary<Practice> {
  const withCost = prices !== undefined;
  return fc
    .record({
      animals: fc.tuple(anyAnimal('11', withCost), anyAnimal('12', withCost)),
      others: fc.tuple(anyAnimal('90001', withCost)),
      business: fc.record(
        {
          trimmer: people,
          phone: fc.constant('01632 960140'),
          email: fc.constant('office@quillfen.example'),
        },
        { requiredKeys: [] },
      ),
      farm: fc.record(
        {
          'milk-litres': fc.constantFrom(21, 29.5),
          'milkings-a-day': fc.constant(2),
          footbath: fc
            .constantFrom('copper sulphate', 'copper sulphate', 'lincomycin')
            .map((product) => [{ product, from: '2026-06-01' }]),
          'next-visit': fc.constant('2026-06-23'),
        },
        { requiredKeys: [] },
      ),
    })
    .map(({ animals, others, business, farm }) => ({
      business: { ...business, ...(prices ? { prices } : {}) },
      narrative: '',
      farms: [
        herd('quernholt', animals, { farm: 'Quernholt', ...farm }),
        herd('harrowmere', others, {
          farm: 'Harrowmere',
          contact: { name: 'Gil Fennimarsh' },
          vet: { practice: 'Bellfurrow Vets' },
        }),
      ],
    }));
}

import { beforeAll, expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { renderBook } from '../../src/book/render-book.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Visit } from '../../src/record/visit.js';
import { practiceOf, farmWith } from '../growth/invented-practice.js';
import { cow, quernholt, visit } from '../schedule/a-case.js';

const first = '2025-07-08';
const counts = [6, 7, 8, 9, 12, 18, 24];

const on = (at: number) => addDays(first, 14 * at);

/** A cow as a trimmer writes her: two lesions measured at every visit; a product, the vet and the farm at the first. */
function usual(visits: number): Animal {
  return followed(visits, (at) => ({
    blocks: at % 2 ? [{ foot: 'LH', claw: 'inner', event: 'checked' }] : [],
    note: 'Dry. Taken off until it held tight all round.',
    ...(at === 0 ? everythingElse(at) : {}),
  }));
}

/** The same with every key of a visit filled at every visit, and nothing that was asked ever answered. */
function muchWritten(visits: number): Animal {
  return followed(visits, everythingElse);
}

function everythingElse(at: number): Partial<Visit> {
  return {
    at: '10:40',
    'gait-by': 'Orla Venn',
    condition: 2.75,
    weight: 655,
    blocks: [{ foot: 'LH', claw: 'inner', event: at % 2 ? 'replaced' : 'fitted', material: 'plastic' }],
    products: [
      {
        product: 'as on the label',
        active: 'as on the label',
        class: 'medicine',
        batch: `K1${at}`,
        amount: 'as the vet wrote',
        route: 'topical',
        lesion: 'u',
        on: on(at),
        until: on(at),
        'milk-days': 3,
        'meat-days': 14,
        'given-by': 'Orla Venn',
        'prescribed-by': 'P. Wexmarrow',
        cost: 3.2,
      },
    ],
    vet: { asked: on(at), why: 'the ulcer is slow to come in' },
    'ask-farm': [
      { what: 'straw pen', by: addDays(on(at), 1) },
      { what: 'score her walk', by: addDays(on(at), 7) },
    ],
    note: 'Grit packed up under the wall again. Taken off until it held tight all round. Dry above it, and no smell.',
  };
}

function followed(visits: number, more: (at: number) => Partial<Visit>): Animal {
  const wall = { state: 'open', 'top-found': 'seen', wall: 78, tool: 'ruler', width: 9 } as const;
  return cow(
    Array.from({ length: visits }, (_, at) =>
      visit(on(at), {
        gait: at % 3,
        feet: { LH: { lifted: true }, RH: { lifted: true, note: 'sound' } },
        found: {
          a: { ...wall, top: 12 + 2.6 * at, signs: ['undermined', 'loose horn'] },
          u: { state: 'open', length: 24, width: 17, tool: 'ruler', signs: ['exposed corium'] },
        },
        trimmed: ['LH', 'RH'],
        'cut-back': ['a'],
        'pain-relief': 'asked',
        'tools-disinfected': true,
        recheck: addDays(on(at), 14),
        ...more(at),
      }),
    ),
    {
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'dorsal wall', line: 'dorsal' },
        u: { code: 'SU', foot: 'LH', claw: 'outer', site: 'sole-heel junction' },
      },
    },
  );
}

/** Bytes of the pages, by the number of visits. */
let usually: readonly number[];
let atMost: readonly number[];

beforeAll(async () => {
  const named = (name: string, make: (visits: number) => Animal) =>
    counts.map((count) => [`${name}${count}`, make(count)] as const);
  const animals = Object.fromEntries([...named('u', usual), ...named('m', muchWritten)]);
  const farm = farmWith('quernholt', animals, quernholt);
  const html = await renderBook(composeBook(practiceOf(farm), farm, '2026-06-16'));
  const bytesOf = (name: string) =>
    counts.map((count) => {
      const page = new RegExp(`<article class="cow" id="animal-${name}${count}"[^]*?</article>`).exec(html);
      return Buffer.byteLength(page![0]);
    });
  [usually, atMost] = [bytesOf('u'), bytesOf('m')];
}, 60_000);

/** What one further visit adds, from each count to the next. */
function added(bytes: readonly number[]): number[] {
  return bytes.slice(1).map((size, at) => (size - bytes[at]!) / (counts[at + 1]! - counts[at]!));
}

test('a sheet of six visits is under 33.1 kB without pictures, its walls drawn for paper and for a phone, and each further visit adds less than 2.2 kB', () => {
  expect(usually[0]).toBeGreaterThan(20_000);
  expect(usually[0]).toBeLessThan(33_100);
  expect(Math.min(...added(usually))).toBeGreaterThan(500);
  expect(Math.max(...added(usually))).toBeLessThan(2150);
});

test('with every key filled at every visit and nothing answered, a sheet is under 37.2 kB, and each further visit adds less than 3.4 kB', () => {
  expect(atMost[0]).toBeLessThan(37_200);
  expect(Math.max(...added(atMost))).toBeLessThan(3390);
});

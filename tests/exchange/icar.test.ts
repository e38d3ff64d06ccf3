import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doseOf, icarEvents, icarFiles, type IcarEvents } from '../../src/exchange/icar/icar-events.js';
import type { Written } from '../../src/exchange/records-json.js';
import { sheets } from '../../src/exchange/sheets.js';
import type { Animal } from '../../src/record/animal.js';
import { feet, fixtureEvents } from '../../src/record/words.js';
import { icarExchange } from '../../src/reference/icar-exchange.js';
import { withheldAfter } from '../../src/cli/export.js';
import { anyWritten } from './any-records.js';
import { practiceIn } from './practice-in.js';

const eventsOf = (written: Written): IcarEvents => icarEvents(written.farms, withheldAfter('2199-12-31'));

/**
 * What the standard asks of these two events, gathered by hand: which members there are, what type each has, which must
 * be present. Source: ICAR Animal Data Exchange, JSON schemas of the diagnosis event, the treatment event and their types
 * (https://github.com/adewg/ICAR), read on 2026-11-25. Nothing beyond these members is written by this program.
 */
type Shape =
  | 'text'
  | 'number'
  | 'moment'
  | { readonly [member: string]: Shape }
  | readonly [Shape]
  | ReadonlySet<unknown>;
const identifier = { 'id!': 'text', 'scheme!': 'text' } as const;
const positions = [
  { position: new Set(['LegsFrontLeft', 'LegsFrontRight', 'LegsRearLeft', 'LegsRearRight']) },
] as const;
const core = {
  'resourceType!': 'text',
  id: 'text',
  meta: { 'source!': 'text', 'modified!': 'moment', sourceId: 'text', creator: 'text' },
  location: identifier,
  'animal!': identifier,
  eventDateTime: 'moment',
  responsible: 'text',
  remark: 'text',
} as const;
const diagnosis: Shape = {
  ...core,
  diagnoses: [
    { id: 'text', name: 'text', description: 'text', diagnosisCode: identifier, site: 'text', positions },
  ],
};
const treatment: Shape = {
  ...core,
  medicine: { name: 'text' },
  procedure: 'text',
  batches: [{ identifier: 'text' }],
  withdrawals: [{ productType: new Set(['Meat', 'Milk']), endDate: 'moment' }],
  dose: { doseQuantity: 'number', doseUnits: new Set(['MLT', 'LTR', 'MGM', 'GRM']) },
  site: 'text',
  positions,
  comment: 'text',
};

function troubles(shape: Shape, value: unknown, at = ''): string[] {
  if (shape === 'text') return typeof value === 'string' ? [] : [`${at}: no text`];
  if (shape === 'number') return typeof value === 'number' ? [] : [`${at}: no number`];
  if (shape === 'moment')
    return typeof value === 'string' &&
      /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(value) &&
      !Number.isNaN(Date.parse(value))
      ? []
      : [`${at}: no moment in UTC`];
  if (shape instanceof Set) return shape.has(value) ? [] : [`${at}: not of its words`];
  if (Array.isArray(shape))
    return Array.isArray(value)
      ? value.flatMap((one, index) => troubles((shape as readonly [Shape])[0], one, `${at}[${index}]`))
      : [`${at}: no list`];
  if (typeof value !== 'object' || value === null) return [`${at}: no group`];
  const members = Object.entries(shape).map(
    ([name, inner]) => [name.replace('!', ''), inner, name.endsWith('!')] as const,
  );
  const unknown = Object.keys(value).filter((key) => !members.some(([name]) => name === key));
  return [
    ...unknown.map((key) => `${at}.${key}: not known`),
    ...members.flatMap(([name, inner, must]) => {
      const own: unknown = Reflect.get(value, name);
      return own === undefined
        ? must
          ? [`${at}.${name}: missing`]
          : []
        : troubles(inner as Shape, own, `${at}.${name}`);
    }),
  ];
}

/** From the files as written, as another program would read them. */
function allTroubles(written: Written): string[] {
  const files = icarFiles(written, eventsOf(written));
  return [['diagnoses.json', diagnosis] as const, ['treatments.json', treatment] as const].flatMap(
    ([file, shape]) => {
      const read = JSON.parse(files.get(file) ?? '') as { view: unknown; member: unknown[] };
      return [
        ...troubles(
          { 'totalItems!': 'number', 'totalPages!': 'number', 'currentPage!': 'number' },
          read.view,
          file,
        ),
        ...troubles([shape], read.member, file),
      ];
    },
  );
}

describe('events of ICAR Animal Data Exchange', () => {
  it('the check by hand distinguishes a wrong event from a right one', () => {
    expect(
      troubles(diagnosis, { resourceType: 'x', animal: { id: '1' }, eventDateTime: '2026-01-06' }),
    ).toEqual(['.animal.scheme: missing', '.eventDateTime: no moment in UTC']);
    expect(
      troubles(treatment, {
        resourceType: 'x',
        animal: { id: '1', scheme: 'y' },
        withdrawals: [{ productType: 'Cheese' }],
        dosis: 1,
      }),
    ).toEqual(['.dosis: not known', '.withdrawals[0].productType: not of its words']);
  });

  it.each(['cases', 'tests/casefiles/good/every-key', 'tests/casefiles/good/ten-years'])(
    'of %s are of the shape the standard asks',
    (folder) => {
      const practice = practiceIn(folder);
      expect(allTroubles(practice)).toEqual([]);
      expect(eventsOf(practice).diagnoses.length).toBeGreaterThan(0);
      expect(icarFiles(practice, eventsOf(practice))).toEqual(
        icarFiles(practiceIn(folder), eventsOf(practiceIn(folder))),
      );
    },
  );

  it('of any business are, and no two have one name', () => {
    fc.assert(
      fc.property(anyWritten, (written) => {
        expect(allTroubles(written)).toEqual([]);
        const { diagnoses } = eventsOf(written);
        expect(new Set(diagnoses.map(({ id }) => id)).size).toBe(diagnoses.length);
      }),
      { numRuns: 40, seed: 20261125 },
    );
  });

  it('every product of the records is a treatment, and every lesion found a diagnosis', () => {
    const practice = practiceIn('cases');
    const { diagnoses, treatments } = eventsOf(practice);
    const animals = practice.farms.flatMap(({ cases }) => cases.map(({ animal }) => animal));
    const products = animals.flatMap(({ visits }) => visits.flatMap((visit) => visit.products ?? []));
    expect(products.length).toBeGreaterThan(5);
    expect(treatments.filter(({ medicine }) => medicine).map(({ medicine }) => medicine?.name)).toEqual(
      products.map(({ product }) => product),
    );
    const lesions = animals.flatMap(({ lesions: own }) => Object.keys(own));
    expect(diagnoses.flatMap((event) => event.diagnoses).length).toBeGreaterThanOrEqual(lesions.length);
  });
});

const place = { file: '', placeOf: () => ({ line: 1, column: 1 }) };
const farmWith = (animal: Partial<Animal>, milkings?: number, holding?: string): Written => ({
  business: {},
  narrative: '',
  farms: [
    {
      slug: 'q',
      farm: {
        farm: 'Q',
        ...(milkings === undefined ? {} : { 'milkings-a-day': milkings }),
        ...(holding === undefined ? {} : { holding }),
      },
      narrative: '',
      source: place,
      cases: [
        {
          slug: '1',
          animal: { casefile: 1, animal: '1', lesions: {}, visits: [], ...animal },
          narrative: '',
          source: place,
        },
      ],
    },
  ],
});

describe('a diagnosis', () => {
  const visit = (date: string, found: object) => ({
    date,
    by: 'V',
    kind: 'recheck' as const,
    found: found as never,
  });
  it('is reported once, again under a new name, again where dermatitis is back, and never of what is gone or was not looked at', () => {
    const { diagnoses } = eventsOf(
      farmWith({
        lesions: {
          a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear' },
          d: { code: 'DD', foot: 'RF' },
        },
        visits: [
          visit('2026-01-01', { a: { lifted: false }, d: { stage: 'M2' } }),
          visit('2026-01-02', { a: { state: 'open' }, d: { stage: 'M0' } }),
          visit('2026-01-03', { a: { state: 'open', top: 3 }, d: { stage: 'M0' } }),
          visit('2026-01-04', { a: { state: 'open', code: 'WLA', infected: true }, d: { stage: 'M1' } }),
          visit('2026-01-05', { a: { state: 'healed' } }),
        ],
      }),
    );
    const said = diagnoses.map(({ eventDateTime, diagnoses: own }) => [
      eventDateTime.slice(0, 10),
      own.map(({ name, description }) => [name, description].join(' ')),
    ]);
    expect(said).toEqual([
      ['2026-01-01', ['digital dermatitis ']],
      ['2026-01-02', ['white line disease ']],
      ['2026-01-04', ['white line abscess Infected with digital dermatitis.', 'digital dermatitis ']],
    ]);
    expect(diagnoses[1]?.diagnoses[0]).toMatchObject({
      site: 'LH, outer claw, white line rear',
      positions: [{ position: 'LegsRearLeft' }],
      diagnosisCode: { id: 'WL' },
    });
    for (const { remark } of diagnoses) expect(remark).toContain('not a veterinary diagnosis');
  });
});

describe('a treatment', () => {
  const withProduct = (use: object, milkings?: number) =>
    eventsOf(
      farmWith(
        {
          calvings: ['2025-11-01'],
          visits: [{ date: '2026-03-01', by: 'V', kind: 'report', products: [{ product: 'p', ...use }] }],
        },
        milkings,
      ),
    ).treatments[0]!;

  it.each([
    [
      'days, from the last dose',
      { 'milk-days': 4, 'meat-days': 10, until: '2026-03-03' },
      ['Milk 2026-03-08', 'Meat 2026-03-14'],
    ],
    ['hours, rounded up to days', { 'milk-hours': 36, 'meat-days': 0 }, ['Milk 2026-03-04']],
    [
      'milkings, by the farm’s',
      { 'milk-milkings': 5, 'meat-days': 1 },
      ['Milk 2026-03-05', 'Meat 2026-03-03'],
    ],
  ])('ends its withdrawal at noon of the first clear day: %s', (_, use, ends) => {
    const { withdrawals = [] } = withProduct(use, 2);
    expect(withdrawals.map(({ productType, endDate }) => `${productType} ${endDate}`)).toEqual(
      ends.map((end) => `${end}T12:00:00Z`),
    );
  });

  it('says in words what an end cannot: nothing withheld, nothing written, milkings of an unknown day', () => {
    expect(withProduct({ 'milk-days': 0, 'meat-days': 0 })).toMatchObject({
      comment: expect.stringContaining('Milk: nothing withheld') as unknown,
    });
    const silent = withProduct({ class: 'medicine' });
    expect(silent.withdrawals).toBeUndefined();
    expect(silent.comment).toContain(
      'Milk: withdrawal not recorded; treat as under withdrawal and ask the vet.',
    );
    expect(withProduct({ 'milk-milkings': 6 }).comment).toContain('6 milkings');
    expect(withProduct({ class: 'not a medicine' }).comment).not.toContain('withdrawal');
  });

  it('gives no end where it cannot be known, and one end for two products that run together', () => {
    const dry = farmWith({
      calvings: [],
      visits: [
        {
          date: '2026-03-01',
          by: 'V',
          kind: 'report',
          products: [{ product: 'p', 'milk-days': 4, 'meat-days': 5 }],
        },
        {
          date: '2026-03-03',
          by: 'V',
          kind: 'report',
          products: [{ product: 'q', 'milk-days': 0, 'meat-days': 20 }],
        },
      ],
    });
    const [first, second] = eventsOf(dry).treatments;
    const meat = [{ productType: 'Meat', endDate: '2026-03-24T12:00:00Z' }];
    expect(first).toMatchObject({
      withdrawals: meat,
      comment: expect.stringContaining('Milk: until when it is withheld is not known') as unknown,
    });
    expect(second?.withdrawals).toEqual(meat);
  });

  it.each([
    ['2 g', { doseQuantity: 2, doseUnits: 'GRM' }],
    ['12.5ml', { doseQuantity: 12.5, doseUnits: 'MLT' }],
    ['two grams', undefined],
    ['2 pumps', undefined],
    ['1,5 ml', undefined],
    [undefined, undefined],
  ])('the amount %j is %j', (amount, dose) => expect(doseOf(amount)).toEqual(dose));

  it('an amount in words stays in words', () => {
    expect(withProduct({ amount: 'a thin layer' })).toMatchObject({
      comment: expect.stringContaining('a thin layer') as unknown,
    });
  });

  it('a block fitted is one; a block looked at is none', () => {
    const blocks = fixtureEvents.map((event) => ({ foot: 'LH' as const, claw: 'inner' as const, event }));
    const { treatments } = eventsOf(
      farmWith({ visits: [{ date: '2026-03-01', by: 'V', kind: 'recheck', blocks }] }),
    );
    expect(treatments.map(({ procedure }) => procedure)).toEqual([
      'block: fitted',
      'block: replaced',
      'block: removed',
    ]);
  });
});

describe('an event', () => {
  it('was last changed on the day of its visit, or of the last correction of what it says', () => {
    const correction = (date: string) => [{ date, by: 'V', why: 'w' }];
    const modified = (animal: Partial<Animal>, visit: object = {}) =>
      eventsOf(
        farmWith({
          ...animal,
          visits: [{ date: '2026-03-01', by: 'V', kind: 'recheck', trimmed: ['LH'], ...visit }],
        }),
      ).treatments[0]?.meta.modified;
    expect(modified({})).toBe('2026-03-01T12:00:00Z');
    expect(modified({}, { amended: correction('2026-03-04') })).toBe('2026-03-04T12:00:00Z');
    expect(modified({ amended: correction('2026-03-05') })).toBe('2026-03-05T12:00:00Z');
    const lesions = { a: { code: 'WL' as const, foot: 'LH' as const, amended: correction('2026-03-06') } };
    expect(modified({ lesions, amended: correction('2026-03-05') })).toBe('2026-03-06T12:00:00Z');
  });
});

describe('identities', () => {
  const of = (animal: Partial<Animal>, holding?: string, scheme?: string) => {
    const written = farmWith(
      { visits: [{ date: '2026-03-01', by: 'V', kind: 'recheck', trimmed: [...feet] }], ...animal },
      2,
      holding,
    );
    const { treatments } = icarEvents(written.farms, withheldAfter('2026-03-01'), scheme);
    expect(treatments).toHaveLength(4);
    return { animal: treatments[0]!.animal, location: treatments[0]!.location };
  };
  it('are the official tag, else the electronic number, else farm and number; the farm is its holding, else its name', () => {
    expect(of({ tag: 'UK 000123 400001', electronic: '999000000400001' }, '00/1').animal.id).toBe(
      'UK 000123 400001',
    );
    expect(of({ tag: 'UK 000123 400001' }, '00/1', 'example.tags')).toEqual({
      animal: { id: 'UK 000123 400001', scheme: 'example.tags' },
      location: { id: '00/1', scheme: icarExchange.schemes.holding },
    });
    expect(of({ electronic: '999000000400001' })).toEqual({
      animal: { id: '999000000400001', scheme: icarExchange.schemes.electronic },
      location: { id: 'q', scheme: icarExchange.schemes.farm },
    });
    expect(of({}).animal).toEqual({ id: 'q/1', scheme: icarExchange.schemes.number });
  });
});

describe('what is left out', () => {
  it('is all that is in the records and is not carried, counted; what is said to be carried is in the model', () => {
    const places = new Set(sheets.flatMap(({ columns }) => columns.map(({ place: at }) => at)));
    expect(icarExchange.carried.filter((at) => !places.has(at))).toEqual([]);
    const practice = practiceIn('tests/casefiles/good/every-key');
    const text = icarFiles(practice, eventsOf(practice)).get('left-out.txt') ?? '';
    expect(text).toMatch(/^ +4 {2}visits, gait:/m);
    expect(text).toContain('findings, top:');
    expect(text).not.toContain('products, batch:');
  });

  it('what is said to be carried is: each text of it is found in the events', () => {
    const marked = (key: string) => `marked ${key}`;
    const product = {
      product: marked('product'),
      active: marked('active'),
      batch: marked('batch'),
      amount: marked('amount'),
      route: marked('route'),
      'given-by': marked('given-by'),
      'prescribed-by': marked('prescribed-by'),
      note: marked('note'),
    };
    const { treatments } = eventsOf(
      farmWith({ visits: [{ date: '2026-03-01', by: 'V', kind: 'recheck', products: [product] }] }),
    );
    const text = JSON.stringify(treatments);
    expect(Object.values(product).filter((value) => !text.includes(value))).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import type { Farm } from '../../src/record/farm.js';
import type { ProductUse, Visit } from '../../src/record/visit.js';
import { leftUnderWithdrawal } from '../../src/schedule/end-of-case.js';
import { type Withheld, withheldOf, withheldSpans, writtenPeriod } from '../../src/schedule/withheld.js';
import { cow, quernholt, visit } from './a-case.js';

const first = '2026-03-01';
const inMilk = { calvings: ['2025-11-01'] };

/** In short: `-`, the last withheld day, or why it is not known. */
function short(held: Withheld): string {
  if (held.outcome === 'nothing') return '-';
  return held.outcome === 'withheld' ? held.lastWithheld : held.why.map(({ why }) => why).join(', ');
}

function heldOf(
  visits: readonly Visit[],
  more: Partial<Animal> = inMilk,
  today = '2026-03-02',
  farm: Farm = quernholt,
) {
  const { milk, meat } = withheldOf(cow(visits, more), farm, today);
  return [short(milk), short(meat)];
}

const given = (use: Partial<ProductUse>, on = first) =>
  visit(on, { products: [{ product: 'x', class: 'medicine', ...use }] });
const milk = (use: Partial<ProductUse>, more?: Partial<Animal>, today?: string) =>
  heldOf([given({ 'meat-days': 0, ...use })], more, today)[0];

describe('days worked by hand', () => {
  it.each<[string, Partial<ProductUse>, string]>([
    ['four days after 1 March', { 'milk-days': 4 }, '2026-03-05'],
    ['36 hours are two days', { 'milk-hours': 36 }, '2026-03-03'],
    ['24 hours are one day', { 'milk-hours': 24 }, '2026-03-02'],
    ['25 hours are two', { 'milk-hours': 25 }, '2026-03-03'],
    ['five milkings at two a day are three days', { 'milk-milkings': 5 }, '2026-03-04'],
    ['one milking at two a day is one day', { 'milk-milkings': 1 }, '2026-03-02'],
    ['half a day is one', { 'milk-days': 0.5 }, '2026-03-02'],
    ['a course counts from its last dose', { 'milk-days': 4, until: '2026-03-03' }, '2026-03-07'],
    ['the label’s own hours win over days', { 'milk-hours': 72, 'milk-days': 2 }, '2026-03-04'],
    ['a slip of many zeros is for good', { 'milk-days': 4e9 }, '2199-12-31'],
    ['0 days are nothing', { 'milk-days': 0 }, '-'],
    ['0 hours are nothing', { 'milk-hours': 0 }, '-'],
    ['0 milkings are nothing', { 'milk-milkings': 0 }, '-'],
  ])('%s', (_, use, last) => expect(milk(use)).toBe(last));

  it('the first clear day is the day after, over the end of a leap February', () => {
    const { meat } = withheldOf(cow([given({ 'milk-days': 0, 'meat-days': 3 }, '2028-02-27')]), quernholt, '2028-02-27'); // prettier-ignore
    expect(meat).toEqual({
      outcome: 'withheld',
      lastWithheld: '2028-03-01',
      firstClear: '2028-03-02',
      product: 'x',
      day: '2028-02-27',
    });
  });

  it('is withheld on its last day and not on the next', () => {
    expect(milk({ 'milk-days': 4 }, inMilk, '2026-03-05')).toBe('2026-03-05');
    expect(milk({ 'milk-days': 4 }, inMilk, '2026-03-06')).toBe('-');
  });

  it('a period is reported as it was written, without a day', () => {
    const written = (use: Partial<ProductUse>, milkings?: number) =>
      writtenPeriod({ product: 'x', ...use }, 'milk', milkings);
    expect(written({ 'milk-hours': 36 })).toEqual({ outcome: 'days', days: 2, hours: 36 });
    expect(written({ 'milk-milkings': 5 }, 3)).toEqual({ outcome: 'days', days: 2, milkings: 5 });
    expect(written({ 'milk-milkings': 0 })).toEqual({ outcome: 'nothing' });
    expect(written({ 'milk-milkings': 5 })).toEqual({ outcome: 'milkings-a-day-not-known', milkings: 5 });
    expect(written({ class: 'not sure' })).toEqual({ outcome: 'not-recorded' });
    expect(written({})).toEqual({ outcome: 'not-recorded' });
    expect(written({ class: 'not a medicine' })).toEqual({ outcome: 'none-written' });
    expect(written({ class: 'not a medicine', active: 'Tylosin tartrate' }).outcome).toBe('not-recorded');
  });
});

describe('one milk day and one meat day, the latest of all she was given', () => {
  const early = { 'milk-days': 2, 'meat-days': 27 };
  const late = { 'milk-days': 4, 'meat-days': 12 };

  it('of two products that run together', () => {
    expect(heldOf([given(early), given(late)])).toEqual(['2026-03-05', '2026-03-28']);
  });

  it('of one that begins on the day the other would be clear, but not of one a day later', () => {
    const held = (on: string) => heldOf([given({ 'milk-days': 4, 'meat-days': 0 }), given({ 'milk-days': 4, 'meat-days': 0, on }, first)])[0]; // prettier-ignore
    expect(held('2026-03-06')).toBe('2026-03-10');
    expect(held('2026-03-07')).toBe('2026-03-05');
  });

  it('any part not known makes it not known, and of one that is over nothing is left', () => {
    const unknown = given({ 'milk-days': 0 }, '2025-12-01');
    expect(heldOf([unknown, given(late)])).toEqual(['2026-03-05', 'not-recorded']);
    expect(heldOf([unknown, given(late)], inMilk, '2026-11-30')).toEqual(['-', 'not-recorded']);
    expect(heldOf([unknown, given(late)], inMilk, '2026-12-01')).toEqual(['-', '-']);
  });

  it('one that was over before the other began does not count', () => {
    const before = given({ 'milk-days': 0 }, '2025-02-01');
    expect(heldOf([before, given(late)])).toEqual(['2026-03-05', '2026-03-13']);
  });

  it('as runs of days: joined where they touch, without an end where it is not known', () => {
    const spans = (...visits: Visit[]) => withheldSpans(cow(visits, inMilk), quernholt, '2026-04-30');
    const use = { 'milk-days': 4, 'meat-days': 0 };
    expect(spans(given(use), given(use, '2026-03-05'), given(use, '2026-04-01'))).toEqual([
      { side: 'milk', from: first, to: '2026-03-09' },
      { side: 'milk', from: '2026-04-01', to: '2026-04-05' },
    ]);
    expect(spans(given(use), given({ 'meat-days': 0 }, '2026-03-04'))).toEqual([
      { side: 'milk', from: first },
    ]);
    expect(
      withheldSpans(
        cow([given({ 'meat-days': 0 }, '2024-03-04'), given(use)], inMilk),
        quernholt,
        '2026-04-30',
      ),
    ).toEqual([{ side: 'milk', from: first, to: '2026-03-05' }]);
  });
});

describe('milk where she was dry or had not calved', () => {
  const use = { 'milk-days': 4 };
  it.each<[string, Partial<Animal>, string]>([
    ['in milk by her calving', inMilk, '2026-03-05'],
    ['dry', { calvings: ['2025-03-01'], 'dried-off': ['2026-02-01'] }, 'not-in-milk'],
    ['dried off that very day', { calvings: ['2025-03-01'], 'dried-off': [first] }, 'not-in-milk'],
    ['dried off the day after', { calvings: ['2025-03-01'], 'dried-off': ['2026-03-02'] }, '2026-03-05'],
    ['dry once and calved since', { calvings: ['2025-03-01', '2026-02-20'], 'dried-off': ['2026-01-01'] }, '2026-03-05'],
    ['calved that very day', { calvings: [first] }, '2026-03-05'],
    ['a heifer', { calvings: [] }, 'not-in-milk'],
    ['calvings not written', {}, 'lactation'],
    ['calved before the list begins', { calvings: [], 'calved-before': 2 }, 'lactation'],
    ['60 days before she is due, no drying-off', { ...inMilk, calvings: ['2025-03-01'], 'due-to-calve': '2026-04-30' }, 'lactation'],
    ['61 days before she is due', { calvings: ['2025-03-01'], 'due-to-calve': '2026-05-01' }, '2026-03-05'],
    ['overdue, no calving written', { calvings: ['2025-03-01'], 'due-to-calve': '2026-02-20' }, 'lactation'],
    ['due, and dried off later', { calvings: ['2025-03-01'], 'due-to-calve': '2026-04-20', 'dried-off': ['2026-03-10'] }, '2026-03-05'],
    ['calved early, the day due still written', { calvings: ['2026-02-20'], 'due-to-calve': '2026-03-10' }, '2026-03-05'],
    ['calving written later, 50 days on, no drying-off', { calvings: ['2025-03-01', '2026-04-20'] }, 'lactation'],
  ])('%s', (_, more, held) => {
    const animal = cow([given({ ...use, 'meat-days': 0 })], { ...more });
    if (more.calvings === undefined) delete animal.calvings;
    expect(short(withheldOf(animal, quernholt, first, '2026-03-02').milk)).toBe(held);
  }); // prettier-ignore

  it('a product that withholds nothing withholds nothing of her either; meat does not hang on calving', () => {
    expect(milk({ 'milk-days': 0 }, { calvings: [] })).toBe('-');
    expect(heldOf([given({ 'milk-days': 4, 'meat-days': 9 })], { calvings: [] })[1]).toBe('2026-03-10');
  });

  it('one day of a course out of milk is enough', () => {
    const course = { ...use, on: '2026-02-26', until: '2026-03-01' };
    expect(milk(course, { calvings: ['2026-02-26'] })).toBe('2026-03-05');
    expect(milk(course, { calvings: ['2026-02-27'] })).toBe('not-in-milk');
    expect(milk(course, { calvings: ['2025-03-01'], 'dried-off': ['2026-03-01'] })).toBe('not-in-milk');
  });

  it('with the days after calving: not known until she calves, then the later of the two', () => {
    const dry = { calvings: ['2025-03-01'], 'dried-off': ['2026-02-01'] };
    const calved = { ...dry, calvings: ['2025-03-01', '2026-04-01'] };
    const held = (after: number, more: Partial<Animal>, period = 4) =>
      milk({ 'milk-days': period, 'milk-days-after-calving': after }, more, '2026-04-02');
    expect(held(5, dry)).toBe('until-calving');
    expect(held(5, calved)).toBe('2026-04-06');
    expect(held(0, calved)).toBe('-');
    expect(held(0, calved, 40)).toBe('2026-04-10');
    expect(milk({ 'milk-days-after-calving': 5 }, calved, '2026-04-02')).toBe('2026-04-06');
  });
});

describe('given without a record', () => {
  const relief = (more: Partial<Visit> = {}) => visit(first, { 'pain-relief': 'given', ...more });
  const product = { product: 'x', 'milk-days': 0, 'meat-days': 3 };
  const unknown = ['pain-relief', 'pain-relief'];

  it.each<[string, Partial<Visit>, string[]]>([
    ['no product', {}, unknown],
    ['its product', { products: [product] }, ['-', '2026-03-04']],
    ['no medicine', { products: [{ ...product, class: 'not a medicine' }] }, unknown],
    ['an antimicrobial alone', { products: [{ ...product, active: 'Oxytetracycline HCl' }] }, unknown],
    ['a spray on a lesion', { products: [{ ...product, lesion: 'a' }] }, unknown],
    ['put on, by its route', { products: [{ ...product, route: 'topical spray' }] }, unknown],
    ['put on, and a pain reliever', { products: [{ ...product, route: 'topical', active: 'meloxicam' }] }, ['-', '2026-03-04']],
    ['asked, not given', { 'pain-relief': 'asked' }, ['-', '-']],
  ])('pain relief with %s', (_, more, held) => expect(heldOf([relief(more)])).toEqual(held)); // prettier-ignore

  it('a product recorded later for that day is its product; one of another day is not', () => {
    const told = (on: string) => visit('2026-03-02', { kind: 'report', products: [{ ...product, on }] });
    expect(heldOf([relief(), told(first)])).toEqual(['-', '2026-03-04']);
    expect(heldOf([relief(), told('2026-03-02')])).toEqual(unknown);
  });

  it('the vet treated her, and what with is not written', () => {
    const asked = visit(first, { vet: { asked: first, why: 'heat' } });
    const answer = (treated: boolean | undefined, more: Partial<Visit> = {}) =>
      visit('2026-03-02', {
        kind: 'report',
        'vet-answer': { to: first, by: 'V', reply: 'seen', ...(treated === undefined ? {} : { treated }) },
        ...more,
      });
    expect(heldOf([asked, answer(true)])).toEqual(['treated', 'treated']);
    expect(heldOf([asked, answer(false)])).toEqual(['-', '-']);
    expect(heldOf([asked, answer(undefined)])).toEqual(['-', '-']);
    expect(heldOf([asked, answer(true, { products: [{ ...product, on: first }] })])).toEqual([
      '-',
      '2026-03-04',
    ]);
    expect(heldOf([asked, given({ ...product }), answer(true)])).toEqual(['-', '2026-03-04']);
    expect(heldOf([given({ ...product }, '2026-02-20'), asked, answer(true)])).toEqual([
      'treated',
      'treated',
    ]);
  });

  it('is asked about for a year', () => {
    expect(heldOf([relief()], inMilk, '2027-02-28')).toEqual(unknown);
    expect(heldOf([relief()], inMilk, '2027-03-01')).toEqual(['-', '-']);
  });
});

it('an antibiotic in the footbath: the whole herd is not known, from its first day to a year after its last', () => {
  const held = (product: string, from: string, to: string, today = '2026-03-02') =>
    heldOf([visit(first)], inMilk, today, { ...quernholt, footbath: [{ product, from, to }] })[0];
  expect(held('lincomycin powder', '2026-02-01', '2026-04-01')).toBe('footbath');
  expect(held('copper sulphate', '2026-02-01', '2026-04-01')).toBe('-');
  expect(held('lincomycin powder', '2026-03-03', '2026-04-01')).toBe('-');
  expect(held('lincomycin powder', '2025-01-01', '2025-03-03')).toBe('footbath');
  expect(held('lincomycin powder', '2025-01-01', '2025-03-02')).toBe('-');
});

it('milkings cannot be counted without milkings a day, and that alone is not known', () => {
  const farm: Farm = { farm: 'Quernholt' };
  expect(heldOf([given({ 'milk-milkings': 5, 'meat-days': 3 })], inMilk, '2026-03-02', farm)).toEqual([
    'milkings',
    '2026-03-04',
  ]);
});

describe('left under withdrawal', () => {
  const left = (
    result: NonNullable<Animal['episodes']>[number]['result'],
    more: Partial<NonNullable<Animal['episodes']>[number]> = {},
    use: Partial<ProductUse> = { 'milk-days': 4, 'meat-days': 10 },
  ) =>
    leftUnderWithdrawal(
      cow([given(use)], {
        ...inMilk,
        episodes: [{ ended: '2026-03-04', ...(result ? { result } : {}), ...more }],
      }),
      quernholt,
      '2026-06-01',
    )?.grade;

  it.each([
    ['culled', 'serious'],
    ['sold', 'serious'],
    ['moved', 'serious'],
    ['died', 'note'],
    ['put down', 'note'],
    ['sound', undefined],
    ['lost to follow-up', undefined],
  ] as const)('%s: %s', (result, grade) => expect(left(result)).toBe(grade));

  it('the day she left is asked about, not today', () => {
    expect(left('sold', { ended: '2026-03-11' })).toBe('serious');
    expect(left('sold', { ended: '2026-03-12' })).toBeUndefined();
  });

  it('told in writing: of one sold or moved; a carcass is told to nobody', () => {
    expect(left('sold', { 'told-in-writing': '2026-03-04' })).toBe('told');
    expect(left('culled', { 'told-in-writing': '2026-03-04' })).toBe('serious');
  });

  it('not known is as bad; milk alone does not hold up a carcass', () => {
    expect(left('culled', {}, { 'milk-days': 0 })).toBe('serious');
    expect(left('culled', {}, { 'milk-days': 9, 'meat-days': 0 })).toBeUndefined();
    expect(left('sold', {}, { 'milk-days': 9, 'meat-days': 0 })).toBe('serious');
  });

  it('one seen again has not left', () => {
    const animal = cow([given({ 'meat-days': 10 }), visit('2026-03-09')], {
      ...inMilk,
      episodes: [{ ended: '2026-03-04', result: 'sold' }],
    });
    expect(leftUnderWithdrawal(animal, quernholt, '2026-06-01')).toBeUndefined();
  });
});

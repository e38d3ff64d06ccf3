import { describe, expect, it } from 'vitest';
import { withdrawalOf } from '../../src/schedule/withdrawal.js';

const first = '2026-03-01';

describe('days worked by hand', () => {
  it('four days after 1 March: withheld through 5 March, clear from 6 March', () => {
    expect(withdrawalOf({ product: 'x', 'milk-days': 4 }, first, 2).milk).toEqual({
      outcome: 'withheld',
      days: 4,
      lastWithheld: '2026-03-05',
      firstClear: '2026-03-06',
    });
  });

  it('36 hours count as two days', () => {
    const { milk } = withdrawalOf({ product: 'x', 'milk-hours': 36 }, first, 2);
    expect(milk).toMatchObject({ days: 2, hours: 36, lastWithheld: '2026-03-03', firstClear: '2026-03-04' });
  });

  it('24 hours are one day, 25 are two', () => {
    expect(withdrawalOf({ product: 'x', 'milk-hours': 24 }, first, 2).milk).toMatchObject({ days: 1 });
    expect(withdrawalOf({ product: 'x', 'milk-hours': 25 }, first, 2).milk).toMatchObject({ days: 2 });
  });

  it('five milkings at two a day are three days, at three a day two', () => {
    const use = { product: 'x', 'milk-milkings': 5 };
    expect(withdrawalOf(use, first, 2).milk).toMatchObject({ days: 3, lastWithheld: '2026-03-04' });
    expect(withdrawalOf(use, first, 3).milk).toMatchObject({ days: 2, lastWithheld: '2026-03-03' });
  });

  it('counts from the last dose, over the end of a leap February', () => {
    const use = { product: 'x', on: '2028-02-25', until: '2028-02-27', 'meat-days': 3 };
    expect(withdrawalOf(use, '2028-02-25', 2)).toMatchObject({
      lastDose: '2028-02-27',
      meat: { lastWithheld: '2028-03-01', firstClear: '2028-03-02' },
    });
  });
});

describe('what is not a number of days', () => {
  it('0 is nothing withheld, in whatever it is written', () => {
    for (const use of [{ 'milk-days': 0 }, { 'milk-hours': 0 }, { 'milk-milkings': 0 }])
      expect(withdrawalOf({ product: 'x', ...use }, first, undefined).milk).toEqual({ outcome: 'nothing' });
  });

  it('the label’s own hours win over days', () => {
    expect(withdrawalOf({ product: 'x', 'milk-hours': 72, 'milk-days': 2 }, first, 2).milk).toMatchObject({
      days: 3,
    });
  });

  it('a period of more days than the calendar has is counted to its last day', () => {
    const { milk, meat } = withdrawalOf(
      { product: 'x', 'meat-days': 4e9, 'milk-milkings': 5 },
      first,
      1e-300,
    );
    expect(meat).toMatchObject({ lastWithheld: '2199-12-31', firstClear: '2200-01-01' });
    expect(milk).toMatchObject({ lastWithheld: '2199-12-31', firstClear: '2200-01-01' });
  });

  it('milkings cannot be counted without milkings a day', () => {
    expect(withdrawalOf({ product: 'x', 'milk-milkings': 5 }, first, undefined).milk).toEqual({
      outcome: 'milkings-a-day-not-known',
      milkings: 5,
    });
  });

  it.each(['medicine', 'not sure', undefined] as const)('%s without a word is not recorded', (kind) => {
    const use = kind ? ({ product: 'x', class: kind } as const) : { product: 'x' };
    expect(withdrawalOf(use, first, 2)).toMatchObject({
      milk: { outcome: 'not-recorded' },
      meat: { outcome: 'not-recorded' },
    });
  });

  it('what is written as no medicine has none', () => {
    expect(withdrawalOf({ product: 'x', class: 'not a medicine' }, first, 2).milk.outcome).toBe(
      'none-written',
    );
  });
});

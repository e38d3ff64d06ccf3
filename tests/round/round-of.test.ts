import { describe, expect, test } from 'vitest';
import { type Round, type RoundDays, roundOf } from '../../src/round/round-of.js';
import { farmOf, oneCow } from './invented-farm.js';

const day = '2026-06-16';
const cow = (recheck: string, more = '') => oneCow(more, 'animal: "2041"', recheck);
const round = (days: RoundDays, ...farms: ReturnType<typeof farmOf>[]) =>
  roundOf(
    farms.map((farm) => farm(day)),
    days,
    day,
  );
const farmsIn = ({ trips }: Round) =>
  trips.map((trip) => [trip.day, ...trip.farms.map(({ work }) => work.record.slug)]);

describe('trips', () => {
  test('farms planned for one day make one trip, by day, the worst farm first', () => {
    const late = farmOf(cow('2026-06-10'), 'next-visit: 2026-06-23', 'nearbrook');
    const onTime = farmOf(cow('2026-06-23'), 'next-visit: 2026-06-23', 'alderfold');
    const sooner = farmOf(cow('2026-06-18'), 'next-visit: 2026-06-18', 'zealholt');
    expect(farmsIn(round({}, onTime, late, sooner))).toEqual([
      ['2026-06-18', 'zealholt'],
      ['2026-06-23', 'nearbrook', 'alderfold'],
    ]);
  });

  test('the vet’s animal makes a farm the worst, whatever is overdue elsewhere', () => {
    const pus = oneCow('    feet: { LH: { signs: [heat, swollen above foot] } }\n');
    const vets = farmOf(pus, 'next-visit: 2026-06-23', 'zealholt');
    const late = farmOf(cow('2026-06-10'), 'next-visit: 2026-06-23', 'alderfold');
    expect(vets(day).cases[0]!.notices.length).toBeGreaterThan(0);
    expect(farmsIn(round({}, late, vets))).toEqual([['2026-06-23', 'zealholt', 'alderfold']]);
  });

  test('no visit planned, or one whose day has passed: what is due in four weeks is distinguished from the trips', () => {
    const none = farmOf(cow('2026-07-14'));
    const passed = farmOf(cow('2026-06-10'), 'next-visit: 2026-06-02', 'alderfold');
    const later = farmOf(cow('2026-07-15'), '', 'zealholt');
    const made = round({}, none, passed, later);
    expect(made.trips).toEqual([]);
    expect(made.unplanned.map(({ work, lifts }) => [work.record.slug, lifts.length])).toEqual([
      ['alderfold', 1],
      ['quernholt', 1],
    ]);
    expect(made.quiet.map(({ record }) => record.slug)).toEqual(['zealholt']);
  });

  test('no farm at all, and a farm with no animal', () => {
    expect(round({})).toEqual({ trips: [], unplanned: [], outside: [], quiet: [] });
    expect(round({}, farmOf({})).quiet).toHaveLength(1);
    expect(round({}, farmOf({}, 'next-visit: 2026-06-23')).trips[0]?.farms[0]?.lifts).toEqual([]);
  });
});

describe('what a visit is for', () => {
  const only = (recheck: string, days: RoundDays = {}) => {
    const made = round(days, farmOf(cow(recheck), 'next-visit: 2026-06-23'));
    const [farm] = [...made.trips.flatMap(({ farms }) => farms), ...made.outside];
    return { lifts: farm!.lifts.length, apart: farm!.apart.map(({ item }) => item.by) };
  };

  test('due that day, or late already', () => {
    expect(only('2026-06-23')).toEqual({ lifts: 1, apart: [] });
    expect(only('2026-06-10')).toEqual({ lifts: 1, apart: [] });
    expect(only('2026-06-15')).toEqual({ lifts: 1, apart: [] });
  });

  test('what falls before the visit is on it, and apart from today on', () => {
    expect(only('2026-06-16')).toEqual({ lifts: 1, apart: ['2026-06-16'] });
    expect(only('2026-06-22')).toEqual({ lifts: 1, apart: ['2026-06-22'] });
  });

  test('what falls after it is reported only where those days are asked for', () => {
    expect(only('2026-06-30')).toEqual({ lifts: 0, apart: [] });
    expect(only('2026-06-30', { to: '2026-07-05' })).toEqual({ lifts: 0, apart: ['2026-06-30'] });
  });

  test('days that hold the visit, or a farm without one: what falls due before them is reported too', () => {
    expect(only('2026-06-10', { from: '2026-06-22', to: '2026-06-24' })).toEqual({ lifts: 1, apart: [] });
    expect(only('2026-06-18', { from: '2026-06-22', to: '2026-06-24' })).toEqual({
      lifts: 1,
      apart: ['2026-06-18'],
    });
    const made = round({ from: '2026-06-22', to: '2026-06-24' }, farmOf(cow('2026-06-10')));
    expect(made.unplanned.map(({ lifts }) => lifts.length)).toEqual([1]);
  });

  test('days that hold no visit: what is due in them is listed apart, and the farm is outside', () => {
    expect(only('2026-06-10', { to: '2026-06-20' })).toEqual({ lifts: 0, apart: ['2026-06-10'] });
    expect(only('2026-06-10', { from: '2026-06-12', to: '2026-06-20' })).toEqual({ lifts: 0, apart: [] });
    const made = round({ from: '2026-07-01' }, farmOf(cow('2026-06-23'), 'next-visit: 2026-06-23'));
    expect(made.outside).toHaveLength(1);
  });
});

test('printed the evening before the visit, a cow that was due that evening is on it', () => {
  const farm = farmOf(cow('2026-06-16'), 'next-visit: 2026-06-17');
  expect(round({}, farm).trips[0]!.farms[0]!.lifts).toHaveLength(1);
});

test('a farm with an infection goes last in its trip, however bad its cows; without one the worst goes first', () => {
  const late = (health: string) => farmOf(cow('2026-06-10'), `next-visit: 2026-06-23${health}`, 'zealholt');
  const onTime = farmOf(cow('2026-06-23'), 'next-visit: 2026-06-23', 'alderfold');
  expect(farmsIn(round({}, late(''), onTime))).toEqual([['2026-06-23', 'zealholt', 'alderfold']]);
  expect(farmsIn(round({}, late('\nhealth: [ringworm]'), onTime))).toEqual([
    ['2026-06-23', 'alderfold', 'zealholt'],
  ]);
});

describe('what else is open', () => {
  const asked = (by: string, more = '') =>
    farmOf(
      cow('2026-08-20', `    ask-farm: [{ what: wrap off, by: ${by} }]\n${more}`),
      'next-visit: 2026-06-23',
    );
  const others = (farm: ReturnType<typeof farmOf>) => round({}, farm).trips[0]!.farms[0]!.others.length;

  test('a farm’s task by the visit is waited for; one after it, or reported done, is not', () => {
    expect(others(asked('2026-06-12'))).toBe(1);
    expect(others(asked('2026-06-23'))).toBe(1);
    expect(others(asked('2026-06-24'))).toBe(0);
    expect(others(asked('2026-06-12', '    farm-did: [{ what: wrap off, on: 2026-06-09 }]\n'))).toBe(0);
  });

  test('an animal whose meat is withheld is listed though nobody is to lift her', () => {
    const products = '    products: [{ product: "x", class: medicine, milk-days: 0, meat-days: 28 }]\n';
    expect(others(farmOf(cow('2026-08-20', products), 'next-visit: 2026-06-23'))).toBe(1);
  });
});

import { expect, test } from 'vitest';
import { wallStripInput } from '../../src/figure/wall-strip-input.js';
import type { JudgedReading, LesionGrowth } from '../../src/growth/animal-growth.js';
import { animal as animalShape } from '../../src/record/animal.js';
import { daysBetween } from '../../src/record/calendar-day.js';

const found = (date: string, entry: object, more: object = {}) => ({
  date,
  kind: 'recheck',
  by: 'Orla Venn',
  found: { a: entry },
  ...more,
});

const visits = [
  found('2026-01-06', { state: 'open', top: 17, wall: 60 }),
  found('2026-02-03', { state: 'open', top: 22, wall: 61 }, { 'cut-back': ['a'] }),
  { date: '2026-02-10', kind: 'report', by: 'farm' },
  found('2026-03-03', { state: 'open', top: 10, wall: 55, 'wall-lowered': true }),
  found('2026-03-20', { state: 'open', lifted: false }),
  found('2026-03-31', { state: 'covered' }),
];
const animal = animalShape.parse({
  casefile: 1,
  animal: '2041',
  lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'abaxial' } },
  visits,
});

const reading = (visit: number, kind: JudgedReading['kind'], topMm: number, over: Partial<JudgedReading> = {}): JudgedReading => ({
  date: visits[visit]!.date, visit, by: 'Orla Venn', kind, topMm, unused: false, ...over,
}); // prettier-ignore

/** Horn that grows 0.2 mm a day from 10 mm on 3 March, read to 3 mm. */
const growth: LesionGrowth = {
  lesion: 'a',
  code: 'WL',
  foot: 'LH',
  claw: 'outer',
  line: 'abaxial',
  referenceMmPerMonth: 6,
  readings: [
    reading(0, 'first', 17),
    reading(1, 'grew', 22, { expectedMm: 22.6, sdMm: 2.5 }),
    reading(3, 'ran-up', 10, { expectedMm: 27.7, sdMm: 2.5, ranUpMm: 17.7, lostMonths: 3 }),
  ],
  from: '2026-03-03',
  wall: { mm: 61, sdMm: 2, source: 'measured', likelyTooLong: false },
  forecast: {
    outcome: 'range',
    from: '2026-03-03',
    days: { early: 200, best: 255, late: 330 },
    out: { early: '2026-09-19', best: '2026-11-13', late: '2027-01-27' },
    ifSoundHornFollows: false,
  },
  stillAtCoronet: false,
  expectedOn: () => undefined,
  nextReading: (date) => {
    const meanMm = 10 + 0.2 * daysBetween('2026-03-03', date);
    return { date, meanMm, sdMm: 3, lowMm: meanMm - 4, highMm: meanMm + 4, alarmMm: meanMm - 6 };
  },
};

test('one bar for every visit that looked at the gap, with or without a length', () => {
  const { id, bars } = wallStripInput(growth, animal, [], '2041');
  expect(id).toBe('f-2041-a');
  expect(bars.map(({ date, kind, topMm }) => [date, kind, topMm])).toEqual([
    ['2026-01-06', 'first', 17],
    ['2026-02-03', 'grew', 22],
    ['2026-03-03', 'ran-up', 10],
    ['2026-03-31', undefined, undefined],
  ]);
});

test('a bar is as long as the wall measured that day, else as the wall in use; a lowered one is marked', () => {
  const { bars } = wallStripInput(growth, animal, [], '2041');
  expect(bars.map(({ wallMm, wallMeasured, lowered }) => [wallMm, wallMeasured, lowered])).toEqual([
    [60, true, false],
    [61, true, false],
    [55, true, true],
    [61, false, false],
  ]);
});

test('wall taken off stays off below; over it, up to a new top, loose wall is still there', () => {
  const { bars } = wallStripInput(growth, animal, [], '2041');
  expect(bars.map(({ bareFromMm }) => bareFromMm)).toEqual([undefined, 22, 27.7, 27.7]);
});

function daysExpected(visitsToCome: string[], best: string | null = '2026-11-13') {
  const out = { early: '2026-09-19', best, late: null };
  const forecast = { ...growth.forecast, out } as LesionGrowth['forecast'];
  return wallStripInput({ ...growth, forecast }, animal, visitsToCome, '2041').expected.map(
    ({ date }) => date,
  );
}

test('the planned visits come first, then every six weeks, three in all, none after the likeliest day', () => {
  expect(daysExpected([])).toEqual(['2026-05-12', '2026-06-23', '2026-08-04']);
  expect(daysExpected(['2026-04-14'])).toEqual(['2026-04-14', '2026-05-26', '2026-07-07']);
  expect(daysExpected(['2026-03-31', '2026-04-14'])).toEqual(['2026-04-14', '2026-05-26', '2026-07-07']);
  expect(daysExpected(['2026-04-14'], '2026-05-26')).toEqual(['2026-04-14']);
  expect(daysExpected(['2027-12-01'], null)).toEqual([]); // 10 + 0.2 × 638 days = 138 mm, beyond the wall of 61 mm
});

test('nothing is expected on a day that has gone by', () => {
  const days = wallStripInput(growth, animal, ['2026-04-14'], '2041', '2026-05-01').expected.map(
    ({ date }) => date,
  );
  expect(days).toEqual(['2026-06-12', '2026-07-24', '2026-09-04']);
});

test('no date, nothing expected; the reason is kept', () => {
  const forecast: LesionGrowth['forecast'] = { outcome: 'none', why: 'held' };
  const input = wallStripInput({ ...growth, forecast }, animal, ['2026-04-14'], '2041');
  expect(input).toMatchObject({ expected: [], noForecast: 'held' });
  expect(input.out).toBeUndefined();
});

test('a held stretch reaches back over the readings it left unused', () => {
  const readings = [
    reading(0, 'first', 17, { unused: true }),
    reading(1, 'grew', 17, { unused: true }),
    reading(3, 'held', 17),
  ];
  const of = (over: Partial<LesionGrowth>) =>
    wallStripInput({ ...growth, readings, ...over }, animal, [], '2041').held;
  expect(of({})).toEqual([{ from: '2026-01-06', to: '2026-03-03' }]);
  expect(of({ heldNow: { since: '2026-02-03', z: -3.4, sure: true } })).toEqual([
    { from: '2026-01-06', to: '2026-03-03' },
  ]);
});

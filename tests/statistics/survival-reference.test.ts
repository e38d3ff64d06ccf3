import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ellipse, marginAdvance } from '../../src/statistics/ellipse.js';
import { intervalCensoredSurvival } from '../../src/statistics/npmle-masses.js';
import { type Interval, interval } from '../../src/statistics/estimate.js';
import { kaplanMeier, type ErrorScale, riskTable } from '../../src/statistics/kaplan-meier.js';
import { logRankScores } from '../../src/statistics/permutation-test.js';
import { normalCdf } from '../../src/statistics/normal.js';
import { survivalAt } from './survival-at.js';
import { SeededDraws } from '../study/seeded-draws.js';

// What src/statistics gives, checked against sums by hand, closed forms, and the plain definitions below, which share no code with it.

type Endpoint = number | 'Inf';
const vectors = JSON.parse(readFileSync(new URL('../vectors/survival.json', import.meta.url), 'utf8')) as {
  toy_interval: {
    name: string;
    data: [Endpoint, Endpoint][];
    intervals: { left: number; right: Endpoint; p: number; S_after: number }[];
    loglik: number;
  }[];
  gilman_linear_healing: {
    cases: Record<string, Record<'A1' | 'P1' | 'A2' | 'P2' | 'days' | 'd' | 'per_week', number> & { P_ramanujan?: [number, number] }>; // prettier-ignore
  };
  tolerances: Record<'npmle_p_and_S' | 'loglik', number>;
};
const { tolerances } = vectors;

const near = (given: number, expected: number, tolerance: number): void =>
  expect(Math.abs(given - expected), `${given} for ${expected}`).toBeLessThanOrEqual(tolerance);
const sum = (values: readonly number[]): number => values.reduce((before, value) => before + value, 0);

interface Subject {
  readonly time: number;
  /** Else it was still waiting at its last look. */
  readonly event: boolean;
}
const seen = (time: number): Subject => ({ time, event: true });
const cutOff = (time: number): Subject => ({ time, event: false });
const intervalsOf = (subjects: readonly Subject[]): Interval[] =>
  subjects.map(({ time, event }) => interval(time, event ? time : Infinity));
const eventDays = (subjects: readonly Subject[]): number[] =>
  [...new Set(subjects.filter(({ event }) => event).map(({ time }) => time))].sort((a, b) => a - b);
const atRiskOn = (subjects: readonly Subject[], day: number): number =>
  subjects.filter(({ time }) => time >= day).length;
const eventsOn = (subjects: readonly Subject[], day: number): number =>
  subjects.filter(({ time, event }) => event && time === day).length;

/**
 * The curve by handing on: everyone starts with the same share, and who is cut off hands his on in equal parts to all
 * that were seen after him. What has not been given to an event by a day is the share still waiting.
 */
function plainSurvival(subjects: readonly Subject[], day: number): number {
  const inOrder = subjects.toSorted((a, b) => a.time - b.time || Number(b.event) - Number(a.event));
  const share = inOrder.map(() => 1 / inOrder.length);
  inOrder.forEach(({ event }, at) => {
    const after = inOrder.length - at - 1;
    if (event || after === 0) return;
    for (let later = at + 1; later < inOrder.length; later++) share[later]! += share[at]! / after;
    share[at] = 0;
  });
  return 1 - sum(share.filter((_, at) => inOrder[at]!.event && inOrder[at]!.time <= day));
}

/** The sum of d ÷ (n (n − d)) over the days up to one: the variance of the logarithm of the share. */
function plainVariance(subjects: readonly Subject[], day: number): number {
  const days = eventDays(subjects).filter((one) => one <= day);
  return sum(
    days.map((one) => {
      const [n, d] = [atRiskOn(subjects, one), eventsOn(subjects, one)];
      return d / (n * (n - d));
    }),
  );
}

/** From the table of the normal distribution: 95 % lie within so many SD. */
const z95 = 1.959963984540054;

function plainBounds(share: number, variance: number, scale: ErrorScale): [low: number, high: number] {
  const reach = z95 * Math.sqrt(variance);
  const turned = Math.exp(reach / -Math.log(share));
  if (scale === 'log-log') return [share ** turned, share ** (1 / turned)];
  const [low, high] = scale === 'plain' ? [share - share * reach, share + share * reach] : [share / Math.exp(reach), share * Math.exp(reach)]; // prettier-ignore
  return [Math.max(0, low), Math.min(1, high)];
}

/** So many subjects with days from 1 on, one in about three cut off before the event, and many on one day. */
function drawn(draws: SeededDraws, count: number, mean: number): Subject[] {
  const day = (of: number): number => Math.ceil(-of * Math.log(draws.uniform()));
  return Array.from({ length: count }, () => {
    const [event, last] = [day(mean), day(2 * mean)];
    return event <= last ? seen(event) : cutOff(last);
  });
}

const draws = new SeededDraws(20261125);
const pairs = Array.from({ length: 40 }, (_, at) => ({
  name: `pair ${at + 1}`,
  first: drawn(draws, 11 + at, 30),
  second: drawn(draws, 12 + (at % 9), 12),
}));

test('the drawn subjects are of all kinds', () => {
  const groups = pairs.flatMap(({ first, second }) => [first, second]);
  const all = groups.flat();
  expect(all.filter(({ event }) => !event).length / all.length).toBeGreaterThan(0.2);
  expect(groups.some((one) => one.every(({ event }) => event))).toBe(false);
  const isTied = (one: Subject[]) => eventDays(one).some((day) => eventsOn(one, day) > 1);
  expect(groups.filter(isTied).length).toBeGreaterThan(40);
  // An event and a last look on one day; a longest time that is an event, and one that is not.
  expect(groups.some((one) => one.some((a) => !a.event && eventsOn(one, a.time) > 0))).toBe(true);
  const ends = groups.map((one) => plainSurvival(one, Infinity) < 1e-12);
  expect(new Set(ends).size).toBe(2);
});

describe.each(pairs)('Kaplan-Meier: $name', ({ first, second }) => {
  test.each(['plain', 'log', 'log-log'] as const)(
    'steps, errors, bounds and median, %s scale',
    (errorScale) => {
      for (const subjects of [first, second]) {
        const { steps, median, lastSeen } = kaplanMeier(intervalsOf(subjects), { errorScale });
        expect(steps.map(({ time, atRisk, events }) => [time, atRisk, events])).toEqual(
          eventDays(subjects).map((day) => [day, atRiskOn(subjects, day), eventsOn(subjects, day)]),
        );
        const halved = { time: Infinity, low: Infinity, high: Infinity };
        let hazard = 0;
        for (const { time, survival, variance, bounds, cumulativeHazard } of steps) {
          const share = plainSurvival(subjects, time);
          near(survival, share, 1e-12);
          hazard += eventsOn(subjects, time) / atRiskOn(subjects, time);
          near(cumulativeHazard, hazard, 1e-12);
          const isHalf = (height: number) => height <= 0.5 + 1e-9;
          if (isHalf(share)) halved.time = Math.min(halved.time, time);
          if (share < 1e-9) {
            expect(bounds).toBeUndefined();
            continue;
          }
          const ofLog = plainVariance(subjects, time);
          near(variance, share ** 2 * ofLog, 1e-12);
          const [low, high] = plainBounds(share, ofLog, errorScale);
          near(bounds!.low, low, 1e-9);
          near(bounds!.high, high, 1e-9);
          if (isHalf(low)) halved.low = Math.min(halved.low, time);
          if (isHalf(high)) halved.high = Math.min(halved.high, time);
        }
        expect(median).toEqual(halved);
        expect(lastSeen).toBe(Math.max(...subjects.map(({ time }) => time)));
      }
    },
  );
});

/** One row for each day with an event: all at risk and their events, and how many of both are of the first group. */
interface GroupRow {
  readonly n: number;
  readonly d: number;
  readonly firstN: number;
  readonly firstD: number;
  /** The share of all that was still waiting before that day. */
  readonly before: number;
}

function ourRows(first: readonly Interval[], second: readonly Interval[]): GroupRow[] {
  const pooled = kaplanMeier([...first, ...second]).steps;
  const own = riskTable(first);
  return pooled.map(({ time, atRisk: n, events: d }, at) => ({
    n,
    d,
    firstN: first.filter(({ after }) => after >= time).length,
    firstD: own.find((row) => row.time === time)?.events ?? 0,
    before: pooled[at - 1]?.survival ?? 1,
  }));
}

/** Observed less expected in the first group, and its variance, each day weighted. */
function logRank(
  rows: readonly GroupRow[],
  weight: (row: GroupRow) => number,
): [less: number, variance: number] {
  const less = rows.map((row) => weight(row) * (row.firstD - (row.d * row.firstN) / row.n));
  const variance = rows.map((row) => {
    const { n, d, firstN } = row;
    return n === 1 ? 0 : (weight(row) ** 2 * d * firstN * (n - firstN) * (n - d)) / (n * n * (n - 1));
  });
  return [sum(less), sum(variance)];
}

/** How often chance alone lies as far out: the normal density summed by Simpson's rule in 2000 steps. */
function plainTails(chisq: number): number {
  const end = Math.sqrt(chisq);
  const density = (at: number): number => Math.exp((-at * at) / 2) / Math.sqrt(2 * Math.PI);
  const inner = Array.from(
    { length: 1999 },
    (_, k) => (k % 2 === 0 ? 4 : 2) * density(((k + 1) * end) / 2000),
  );
  return 1 - (2 * (density(0) + density(end) + sum(inner)) * end) / 6000;
}

describe('two groups', () => {
  // First: 2, last look 4, 6. Second: 1, 2, 3. Day by day at risk, of the first group, events; expected, variance:
  //   1   6, 3, 1   1/2     1/2 · 1/2 = 1/4
  //   2   5, 3, 2   6/5     2 · 3/5 · 2/5 · 3/4 = 9/25
  //   3   3, 2, 1   2/3     2/3 · 1/3 = 2/9
  //   6   1, 1, 1   1       0
  // Observed 2, expected 101/30: −41/30, variance 749/900, χ² = 1681/749.
  // Weighted by the share before, 1, 5/6, 1/2, 1/3: −1/2 − 1/6 − 1/3 = −1, variance 1/4 + 1/4 + 1/18 = 5/9, χ² = 9/5.
  test('six subjects, by hand', () => {
    const first = intervalsOf([seen(2), cutOff(4), seen(6)]);
    const second = intervalsOf([seen(1), seen(2), seen(3)]);
    const rows = ourRows(first, second);
    expect(rows.map(({ n, firstN, d }) => [n, firstN, d])).toEqual([[6, 3, 1], [5, 3, 2], [3, 2, 1], [1, 1, 1]]); // prettier-ignore
    const [less, variance] = logRank(rows, () => 1);
    near(less, -41 / 30, 1e-12);
    near(variance, 749 / 900, 1e-12);
    const [early, ofEarly] = logRank(rows, ({ before }) => before);
    near(early, -1, 1e-12);
    near(ofEarly, 5 / 9, 1e-12);
    near(sum(logRankScores([...first, ...second]).slice(0, 3)), -41 / 30, 1e-10);
    // The tails of χ² = 1681/749 with one degree of freedom, by other software: 0.134105350.
    near(2 * normalCdf(-Math.sqrt(less ** 2 / variance)), 0.13410535, 1e-8);
  });

  test.each(pairs)('$name: those at risk, log-rank, early-weighted test and scores', ({ first, second }) => {
    const all = [...first, ...second];
    const expected = eventDays(all).map((day) => ({
      n: atRiskOn(all, day),
      d: eventsOn(all, day),
      firstN: atRiskOn(first, day),
      firstD: eventsOn(first, day),
      before: plainSurvival(all, day - 1),
    }));
    const rows = ourRows(intervalsOf(first), intervalsOf(second));
    const counts = ({ n, d, firstN, firstD }: GroupRow) => [n, d, firstN, firstD];
    expect(rows.map(counts)).toEqual(expected.map(counts));
    for (const weight of [() => 1, ({ before }: GroupRow) => before]) {
      const [less, variance] = logRank(rows, weight);
      const [plainLess, ofPlain] = logRank(expected, weight);
      near(less ** 2 / variance, plainLess ** 2 / ofPlain, 1e-9);
      near(2 * normalCdf(-Math.abs(less) / Math.sqrt(variance)), plainTails(plainLess ** 2 / ofPlain), 1e-9);
    }
    const scores = logRankScores(intervalsOf(all));
    const [less] = logRank(expected, () => 1);
    near(sum(scores.slice(0, first.length)), less, 1e-6);
    near(sum(scores.slice(first.length)), -less, 1e-6);
  });
});

const numberOf = (end: Endpoint): number => (end === 'Inf' ? Infinity : end);

describe.each(vectors.toy_interval)('interval-censored: $name', ({ data, intervals, loglik }) => {
  const given = data.map(([left, right]) => interval(numberOf(left), numberOf(right)));
  const { support, logLikelihood } = intervalCensoredSurvival(given);

  test('boxes, masses and likelihood', () => {
    expect(support.map(({ after, by }) => [after, by])).toEqual(
      intervals.map(({ left, right }) => [left, numberOf(right)]),
    );
    for (const [k, { p }] of intervals.entries()) near(support[k]!.mass, p, tolerances.npmle_p_and_S);
    near(logLikelihood, loglik, tolerances.loglik);
  });

  test('the level after each box', () => {
    for (const { right, S_after: level } of intervals) {
      const { low, high } = survivalAt(support, numberOf(right));
      near(low, level, tolerances.npmle_p_and_S);
      near(high, level, tolerances.npmle_p_and_S);
    }
  });
});

/**
 * The most likely chances of some intervals by the slow way: every whole day, and one after all, begins with the same mass; each
 * subject shares itself out over the days it may have fallen on, by the masses as they are; and so on, many times.
 */
function plainChances(given: readonly Interval[], rounds: number): number[] {
  const last = Math.max(...given.map(({ after, by }) => (by === Infinity ? after : by)));
  const days = Array.from({ length: last + 2 }, (_, day) => day);
  const covers = given.map(({ after, by }) =>
    days.filter((day) => (after === by ? day === by : day > after && (day <= by || by === Infinity))),
  );
  let masses = days.map(() => 1 / days.length);
  const chances = () => covers.map((covered) => sum(covered.map((day) => masses[day]!)));
  for (let round = 0; round < rounds; round++) {
    const next = days.map(() => 0);
    chances().forEach((chance, at) => {
      for (const day of covers[at]!) next[day]! += masses[day]! / chance / given.length;
    });
    masses = next;
  }
  return chances();
}

describe('interval-censored sets drawn at random', () => {
  const sets = Array.from({ length: 30 }, (_, at) =>
    Array.from({ length: 5 + (at % 8) }, () => {
      const event = Math.ceil(-20 * Math.log(draws.uniform()));
      const kind = draws.uniform();
      if (kind < 0.15) return interval(event, event);
      if (kind < 0.35) return interval(Math.floor(event * draws.uniform()), Infinity);
      return interval(Math.floor((event - 1) * draws.uniform()), event + Math.floor(draws.between(0, 12)));
    }),
  );

  test.each(sets.map((given, at) => [at + 1, given] as const))(
    'set %i: the chance of each interval, and of all together',
    (_, given) => {
      const { support, logLikelihood } = intervalCensoredSurvival(given);
      const expected = plainChances(given, 5000);
      near(logLikelihood, sum(expected.map(Math.log)), tolerances.loglik);
      given.forEach(({ after, by }, at) => {
        const inside = support.filter((box) =>
          after === by
            ? box.after === by && box.by === by
            : box.by <= by && box.after >= after && box.by > after,
        );
        near(sum(inside.map(({ mass }) => mass)), expected[at]!, tolerances.npmle_p_and_S);
      });
    },
  );
});

describe.each(Object.entries(vectors.gilman_linear_healing.cases))('margin advance: %s', (_, shape) => {
  // The vectors are written to ten decimals, so half of the tenth is the least that can be asked of geometry.
  const geometry = 1e-9;
  const { A1, P1, A2, P2, days, d, per_week: perWeek } = shape;

  test('how far and how fast', () => {
    const advance = marginAdvance({ area: A1, perimeter: P1 }, { area: A2, perimeter: P2 });
    near(advance, d, geometry);
    near((advance / days) * 7, perWeek, geometry);
  });

  if (shape.P_ramanujan) {
    test('perimeters by Ramanujan', () => {
      near(ellipse(20, 10).perimeter, shape.P_ramanujan![0], geometry);
      near(ellipse(14, 4).perimeter, shape.P_ramanujan![1], geometry);
      near(ellipse(20, 10).area, A1, geometry);
      near(ellipse(14, 4).area, A2, geometry);
    });
  }
});

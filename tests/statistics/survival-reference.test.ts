import { describe, expect, test } from 'vitest';
import { intervalCensoredSurvival } from '../../src/statistics/interval-censored-survival.js';
import { interval } from '../../src/statistics/interval.js';
import { kaplanMeier } from '../../src/statistics/kaplan-meier.js';
import { logRankScores } from '../../src/statistics/log-rank-scores.js';
import { marginAdvance } from '../../src/statistics/margin-advance.js';
import { ellipse } from '../../src/statistics/ellipse.js';
import { normalBelow } from '../../src/statistics/normal.js';
import { riskTable } from '../../src/statistics/risk-table.js';
import { survivalAt } from '../../src/statistics/survival-at.js';
import { type CurveVector, type TwoGroups, intervalsOf, numberOf, vectors } from './read-survival-vectors.js';

const { tolerances } = vectors;
// The vectors are written to ten decimals, so half of the tenth is the least that can be asked of geometry.
const geometry = 1e-9;

const near = (given: number, expected: number, tolerance: number): void =>
  expect(Math.abs(given - expected), `${given} for ${expected}`).toBeLessThanOrEqual(tolerance);

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

const curves: [string, CurveVector][] = [
  ['leukaemia, maintained', vectors.km_aml.Maintained],
  ['leukaemia, not maintained', vectors.km_aml.Nonmaintained],
  ['6-MP', vectors.km_6mp.sixMP],
  ['placebo', vectors.km_6mp.placebo],
];

describe.each(curves)('Kaplan-Meier: %s', (_, vector) => {
  test.each(['plain', 'log', 'log-log'] as const)(
    'steps, errors, bounds and median, %s scale',
    (errorScale) => {
      const { rows, median } = vector[errorScale];
      const curve = kaplanMeier(intervalsOf(vector), { errorScale });
      expect(curve.steps.map(({ time, atRisk, events }) => [time, atRisk, events])).toEqual(
        rows.map(({ t, n, d }) => [t, n, d]),
      );
      for (const [k, row] of rows.entries()) {
        const step = curve.steps[k]!;
        near(step.survival, row.S, tolerances.km);
        if (row.se === null) expect(step.bounds).toBeUndefined();
        else {
          near(Math.sqrt(step.variance), row.se, tolerances.km);
          near(step.bounds!.low, row.lo!, tolerances.km);
          near(step.bounds!.high, row.hi!, tolerances.km);
        }
      }
      expect(curve.median).toEqual({
        time: numberOf(median.quantile),
        low: numberOf(median.lower),
        high: numberOf(median.upper),
      });
    },
  );

  test('counts and the last cumulative hazard', () => {
    const { steps } = kaplanMeier(intervalsOf(vector));
    expect(vector.data).toHaveLength(vector.n);
    expect(steps.reduce((sum, { events }) => sum + events, 0)).toBe(vector.events);
    near(steps.at(-1)!.cumulativeHazard, vector.nelson_aalen_last, tolerances.km);
  });
});

const pairs: [string, CurveVector, CurveVector, TwoGroups][] = [
  ['leukaemia', vectors.km_aml.Maintained, vectors.km_aml.Nonmaintained, vectors.km_aml],
  ['6-MP and placebo', vectors.km_6mp.sixMP, vectors.km_6mp.placebo, vectors.km_6mp],
];

describe.each(pairs)('two groups: %s', (_, one, other, expected) => {
  const first = intervalsOf(one);
  const both = [...first, ...intervalsOf(other)];
  const pooled = kaplanMeier(both).steps;
  // At each event of all together: at risk and events in the first group too.
  const table = pooled.map(({ time, atRisk, events }, k) => ({
    atRisk,
    events,
    before: pooled[k - 1]?.survival ?? 1,
    firstAtRisk: first.filter(({ after }) => after >= time).length,
    firstEvents: riskTable(first).find((row) => row.time === time)?.events ?? 0,
  }));
  const oddness = (
    weight: (row: (typeof table)[number]) => number,
  ): { chisq: number; p: number; variance: number } => {
    let difference = 0;
    let variance = 0;
    for (const row of table) {
      const share = row.firstAtRisk / row.atRisk;
      difference += weight(row) * (row.firstEvents - row.events * share);
      if (row.atRisk > 1) {
        const left = (row.atRisk - row.events) / (row.atRisk - 1);
        variance += weight(row) ** 2 * row.events * share * (1 - share) * left;
      }
    }
    const chisq = difference ** 2 / variance;
    return { chisq, p: 2 * normalBelow(-Math.sqrt(chisq)), variance };
  };

  test('the log-rank scores of a group sum to observed less expected', () => {
    const scores = logRankScores(both);
    const sum = (part: number[]): number => part.reduce((before, score) => before + score, 0);
    const { obs, exp } = expected.logrank;
    near(sum(scores.slice(0, first.length)), obs[0]! - exp[0]!, tolerances.test_Z_p);
    near(sum(scores.slice(first.length)), obs[1]! - exp[1]!, tolerances.test_Z_p);
  });

  test('those at risk give the log-rank and the early-weighted test', () => {
    const plain = oddness(() => 1);
    near(plain.variance, expected.logrank.var, tolerances.test_Z_p);
    near(plain.chisq, expected.logrank.chisq, tolerances.test_Z_p);
    near(plain.p, expected.logrank.p, tolerances.test_Z_p);
    if (!expected.peto_peto_rho1) return;
    const early = oddness(({ before }) => before);
    near(early.chisq, expected.peto_peto_rho1.chisq, tolerances.test_Z_p);
    near(early.p, expected.peto_peto_rho1.p, tolerances.test_Z_p);
  });

  // Nothing here fits a Cox model. But at R's estimate the partial likelihood over our sets at risk must be level, and its
  // curvature must give R's standard error. Slope over curvature is how far off β is.
  test.each(['efron', 'breslow'] as const)(
    'those at risk agree with the proportional rates R finds, %s',
    (ties) => {
      const cox = expected.cox?.[ties];
      if (!cox) return expect(expected.cox).toBeUndefined();
      let slope = 0;
      let curvature = 0;
      for (const { atRisk, events, firstAtRisk, firstEvents } of table) {
        const secondEvents = events - firstEvents;
        slope += secondEvents;
        for (let tie = 0; tie < events; tie++) {
          const gone = ties === 'efron' ? tie / events : 0;
          const rate = Math.exp(cox.beta) * (atRisk - firstAtRisk - gone * secondEvents);
          const share = rate / (rate + firstAtRisk - gone * firstEvents);
          slope -= share;
          curvature += share * (1 - share);
        }
      }
      near(slope / curvature, 0, tolerances.test_Z_p);
      near(1 / Math.sqrt(curvature), cox.se, tolerances.test_Z_p);
    },
  );
});

describe.each(Object.entries(vectors.gilman_linear_healing.cases))('margin advance: %s', (_, shape) => {
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

import { readFileSync } from 'node:fs';
import { type Interval, interval } from '../../src/statistics/interval.js';

/** tests/vectors/survival.json: numbers of R (survival 3.5.3, npsurv 0.5.0) and of exact geometry. */
export const vectors = JSON.parse(
  readFileSync(new URL('../vectors/survival.json', import.meta.url), 'utf8'),
) as Vectors;

type Endpoint = number | 'Inf';
type Scale = 'plain' | 'log' | 'log-log';

export interface CurveVector extends Record<Scale, ScaledCurve> {
  n: number;
  events: number;
  data: [time: number, event: 0 | 1][];
  nelson_aalen_last: number;
  label: string;
}

interface ScaledCurve {
  rows: {
    t: number;
    n: number;
    d: number;
    S: number;
    se: number | null;
    lo: number | null;
    hi: number | null;
  }[];
  median: { quantile: number | 'NA'; lower: number | 'NA'; upper: number | 'NA' };
}

export interface TwoGroups {
  logrank: { obs: number[]; exp: number[]; var: number; chisq: number; p: number };
  peto_peto_rho1?: { chisq: number; p: number };
  cox?: Record<'efron' | 'breslow', { beta: number; se: number }>;
}

interface Vectors {
  toy_interval: {
    name: string;
    n: number;
    data: [Endpoint, Endpoint][];
    intervals: { left: number; right: Endpoint; p: number; S_after: number }[];
    loglik: number;
    max_gradient_minus_n: number;
  }[];
  km_aml: { Maintained: CurveVector; Nonmaintained: CurveVector } & Required<TwoGroups>;
  km_6mp: { sixMP: CurveVector; placebo: CurveVector } & TwoGroups;
  gilman_linear_healing: {
    cases: Record<
      string,
      {
        A1: number;
        P1: number;
        A2: number;
        P2: number;
        days: number;
        d: number;
        per_week: number;
        P_ramanujan?: [number, number];
      }
    >;
  };
  tolerances: Record<'npmle_p_and_S' | 'loglik' | 'test_Z_p' | 'km', number>;
}

export const numberOf = (end: Endpoint | 'NA'): number => (typeof end === 'number' ? end : Infinity);

export function intervalsOf({ data }: CurveVector): Interval[] {
  return data.map(([time, event]) => interval(time, event ? time : Infinity));
}

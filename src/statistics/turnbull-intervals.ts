import { type Interval, interval } from './estimate.js';

/** The boxes that an observation covers: from `first` up to, not with, `end`; `count` observations were alike. */
export type MassSpan = Readonly<{ first: number; end: number; count: number }>;

/**
 * The innermost intervals of a set of intervals, here called boxes, and which of them each interval covers.
 *
 * A box begins where some interval begins and ends where some interval ends, with no beginning or end inside it.
 * Only there can the most likely curve fall: chance put anywhere else is covered by fewer of the
 * observations than chance put in the box next to it (Peto; Turnbull). And since no observation ends inside a
 * box, each covers a box whole or not at all, so where within the box the curve falls can never be known.
 *
 * The endpoint rule bites in the order of things that share a moment t: first an exact event at t begins, then
 * whatever ends at t ends, then whatever starts after t begins. So (1, 2] and an exact 2 meet; (1, 2] and (2, 3]
 * do not, nor does an exact 2 with (2, ∞].
 *
 * Shape:   intervals in any order → boxes and distinct spans, both from early to late, and `spanOf`: for each interval, in
 *          the order given, the place of its span
 * Error:   RangeError for what is no interval
 * Source:  R. Peto (1973); B. W. Turnbull (1976)
 * Checked: tests/statistics/turnbull-intervals.test.ts
 * @example turnbullIntervals([{ after: 0, by: 2 }, { after: 1, by: 3 }]).boxes // → [{ after: 1, by: 2 }]
 */
export function turnbullIntervals(intervals: readonly Interval[]) {
  const boxes: Interval[] = [];
  const firstOf = new Int32Array(intervals.length);
  const spans = new Map<number, MassSpan>();
  const keyOf = new Float64Array(intervals.length);
  let begun: Endpoint | undefined;
  for (const endpoint of endpointsInOrder(intervals)) {
    if (endpoint.order !== ends) {
      begun = endpoint;
      firstOf[endpoint.of] = boxes.length;
      continue;
    }
    if (begun) boxes.push(interval(begun.at, endpoint.at));
    begun = undefined;
    const first = firstOf[endpoint.of]!;
    const end = boxes.length;
    const key = first * (intervals.length + 1) + end;
    keyOf[endpoint.of] = key;
    spans.set(key, { first, end, count: (spans.get(key)?.count ?? 0) + 1 });
  }
  const inOrder = [...spans].sort(([a], [b]) => a - b);
  const places = new Map(inOrder.map(([key], place) => [key, place]));
  return {
    boxes,
    spans: inOrder.map(([, span]) => span),
    spanOf: Array.from(keyOf, (key) => places.get(key)!),
  };
}

type Endpoint = Readonly<{ at: number; order: number; of: number }>;

const beginsAt = 0;
const ends = 1;
const beginsAfter = 2;

function endpointsInOrder(intervals: readonly Interval[]): Endpoint[] {
  const endpoints = intervals.flatMap((given, of) => {
    const { after, by } = interval(given.after, given.by);
    const begins = { at: after, order: after === by ? beginsAt : beginsAfter, of };
    return [begins, { at: by, order: ends, of }];
  });
  return endpoints.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.order - b.order));
}

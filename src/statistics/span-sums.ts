import type { Span } from './turnbull-intervals.js';

/** Spans laid out for quick sums: span i covers the boxes from first[i] up to, not with, end[i]. */
export interface SpanTable {
  readonly boxes: number;
  readonly first: Int32Array;
  readonly end: Int32Array;
  readonly count: Float64Array;
  /** All counts together. */
  readonly observations: number;
}

/** Spans laid out for sums over so many boxes. @example spanTable([{ first: 0, end: 2, count: 3 }], 2).observations // → 3 */
export function spanTable(spans: readonly Span[], boxes: number): SpanTable {
  return {
    boxes,
    first: Int32Array.from(spans, ({ first }) => first),
    end: Int32Array.from(spans, ({ end }) => end),
    count: Float64Array.from(spans, ({ count }) => count),
    observations: spans.reduce((sum, { count }) => sum + count, 0),
  };
}

/**
 * For each span, the sum of what lies in the boxes it covers.
 *
 * One running total serves all spans, as the difference of its values at the span's two ends. Such a difference
 * would lose the digits of a small sum, so the total carries along what rounding dropped (Neumaier's sum).
 *
 * Size:    as many steps as there are boxes and spans together, however wide the spans
 * Source:  A. Neumaier (1974)
 * Checked: tests/statistics/span-sums.test.ts, against sums box by box
 * @example [...sumInSpans(spanTable([{ first: 0, end: 2, count: 1 }], 3), Float64Array.of(1, 2, 4))] // → [3]
 */
export function sumInSpans(table: SpanTable, perBox: Float64Array): Float64Array {
  const total = runningTotal(perBox);
  const sums = new Float64Array(table.first.length);
  for (let i = 0; i < sums.length; i++) {
    const first = table.first[i]!;
    const end = table.end[i]!;
    sums[i] =
      end === first + 1
        ? perBox[first]!
        : total.sum[end]! - total.sum[first]! + (total.lost[end]! - total.lost[first]!);
  }
  return sums;
}

/**
 * The other way round: for each box, the sum of what belongs to the spans that cover it.
 *
 * Checked: tests/statistics/span-sums.test.ts
 * @example [...sumOverBoxes(spanTable([{ first: 0, end: 2, count: 1 }], 3), Float64Array.of(5))] // → [5, 5, 0]
 */
export function sumOverBoxes(table: SpanTable, perSpan: Float64Array): Float64Array {
  const changes = new Float64Array(table.boxes);
  for (let i = 0; i < perSpan.length; i++) {
    changes[table.first[i]!]! += perSpan[i]!;
    if (table.end[i]! < table.boxes) changes[table.end[i]!]! -= perSpan[i]!;
  }
  const total = runningTotal(changes);
  for (let box = 0; box < changes.length; box++) changes[box] = total.sum[box + 1]! + total.lost[box + 1]!;
  return changes;
}

function runningTotal(values: Float64Array): { sum: Float64Array; lost: Float64Array } {
  const sum = new Float64Array(values.length + 1);
  const lost = new Float64Array(values.length + 1);
  for (let k = 0; k < values.length; k++) {
    const before = sum[k]!;
    const value = values[k]!;
    const after = before + value;
    const dropped = Math.abs(before) >= Math.abs(value) ? before - after + value : value - after + before;
    sum[k + 1] = after;
    lost[k + 1] = lost[k]! + dropped;
  }
  return { sum, lost };
}

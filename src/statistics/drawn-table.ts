import { type SpanTable } from './span-sums.js';

/** What is left of a set of boxes and spans when some spans were drawn, each so many times, and others not. */
export interface DrawnTable {
  readonly table: SpanTable;
  /** Box k of the table is made of the boxes of the whole from `start[k]` up to, not with, `end[k]`. */
  readonly start: Int32Array;
  readonly end: Int32Array;
}

/**
 * The boxes of a drawn set, each as a run of boxes of the whole.
 *
 * With spans gone some ends of boxes are gone: boxes that every drawn span covers alike are one, and a box that is
 * covered by fewer than its neighbour holds nothing. What is left is as coveredBoxes would find it, but without looking at
 * the intervals again.
 *
 * Shape:   spans of the whole, how often each was drawn, at least one of them → table and runs
 * Checked: tests/statistics/share-bounds.test.ts, against coveredBoxes of the drawn intervals
 */
export function drawnTable(whole: SpanTable, drawn: Float64Array): DrawnTable {
  const begins = new Uint8Array(whole.boxes);
  const finishes = new Uint8Array(whole.boxes);
  let spans = 0;
  for (let i = 0; i < drawn.length; i++) {
    if (drawn[i] === 0) continue;
    spans += 1;
    begins[whole.first[i]!] = 1;
    finishes[whole.end[i]! - 1] = 1;
  }
  const start = new Int32Array(whole.boxes);
  const end = new Int32Array(whole.boxes);
  /** Of each box of the whole, how many runs start before it. */
  const before = new Int32Array(whole.boxes + 1);
  let runs = 0;
  let begun = -1;
  for (let box = 0; box < whole.boxes; box++) {
    before[box] = runs;
    if (begins[box]) begun = box;
    if (!finishes[box] || begun < 0) continue;
    start[runs] = begun;
    end[runs] = box + 1;
    for (let back = begun + 1; back <= box; back++) before[back] = runs + 1;
    runs += 1;
    begun = -1;
  }
  before[whole.boxes] = runs;
  const table = {
    boxes: runs,
    first: new Int32Array(spans),
    end: new Int32Array(spans),
    count: new Float64Array(spans),
    observations: 0,
  };
  for (let i = 0, k = 0; i < drawn.length; i++) {
    if (drawn[i] === 0) continue;
    table.first[k] = before[whole.first[i]!]!;
    table.end[k] = before[whole.end[i]!]!;
    table.count[k] = drawn[i]!;
    table.observations += drawn[i]!;
    k += 1;
  }
  return { table, start: start.subarray(0, runs), end: end.subarray(0, runs) };
}

import type { TimelineInput } from '../../src/figure/timeline-rows.js';
import type { FootMapInput } from '../../src/figure/foot-spots.js';
import type { ClosingInput } from '../../src/figure/closing-on-time.js';
import type { WallBar, WallStripInput } from '../../src/figure/wall-strip-input.js';
import { addDays } from '../../src/record/calendar-day.js';

/** A bar of a gap that grows, to be changed by `over`. */
export function bar(date: string, topMm: number, over: Partial<WallBar> = {}): WallBar {
  return {
    date,
    topMm,
    kind: 'grew',
    state: 'open',
    unused: false,
    wallMm: 60,
    wallMeasured: true,
    lowered: false,
    ...over,
  };
}

const gap: Omit<WallStripInput, 'id' | 'bars' | 'expected' | 'held'> = {
  lesion: 'a',
  foot: 'LH',
  claw: 'outer',
  line: 'abaxial',
  wall: { mm: 61, sdMm: 2, source: 'measured', likelyTooLong: false },
  ifSoundHornFollows: false,
};

/** Six visits with a run-up and what is expected after them. */
export const ranUpStrip: WallStripInput = {
  ...gap,
  id: 'f-1-a',
  bars: [
    bar('2026-01-06', 17, { kind: 'first' }),
    bar('2026-02-03', 22, { expectedMm: 22.4, expectedHalfRangeMm: 3.4, bareFromMm: 22 }),
    bar('2026-03-03', 27, { expectedMm: 27.2, expectedHalfRangeMm: 3.2, bareFromMm: 27 }),
    bar('2026-03-31', 14, {
      kind: 'ran-up',
      expectedMm: 32,
      expectedHalfRangeMm: 3.1,
      ranUpMm: 18,
      lostMonths: 3.1,
      bareFromMm: 32,
    }),
    bar('2026-04-28', 19, { expectedMm: 19.2, expectedHalfRangeMm: 3.2, bareFromMm: 19 }),
    bar('2026-06-02', 27, { expectedMm: 25.6, expectedHalfRangeMm: 3.3, bareFromMm: 27 }),
  ],
  held: [],
  expected: [
    { date: '2026-07-14', lowMm: 31, highMm: 39 },
    { date: '2026-08-25', lowMm: 37, highMm: 49 },
    { date: '2026-10-06', lowMm: 44, highMm: 58 },
  ],
  out: { early: '2026-10-10', best: '2026-11-17', late: '2027-01-05' },
};

/** Every way a bar can be read, in one strip that no animal ever had. */
export const everyKindStrip: WallStripInput = {
  ...gap,
  id: 'f-2-b',
  lesion: 'b',
  bars: [
    {
      date: '2025-11-20',
      kind: 'not-reached',
      state: 'open',
      unused: true,
      wallMm: 61,
      wallMeasured: true,
      lowered: false,
    },
    bar('2025-12-04', 30, { kind: 'not-reached', wallMeasured: false }),
    bar('2025-12-18', 12, { kind: 'first', bareFromMm: 12 }),
    bar('2026-01-15', 10, { kind: 'held', unused: true, bareFromMm: 12 }),
    bar('2026-02-12', 11, { kind: 'held', bareFromMm: 12 }),
    bar('2026-03-12', 8, { kind: 'opened-further', lowered: true, wallMm: 48, wallMeasured: false }),
    bar('2026-04-09', 0, { kind: 'at-coronet' }),
    bar('2026-05-07', 5.5, { state: 'covered', bareFromMm: 5.5 }),
    bar('2026-06-04', 4, { kind: 'doubtful', unused: true, state: 'covered', bareFromMm: 5 }),
  ],
  held: [{ from: '2025-12-18', to: '2026-02-12' }],
  expected: [],
  noForecast: 'doubtful',
  ifRanUp: { early: '2026-12-01', best: '2027-02-01', late: '2027-05-09' },
};

/** Grown out and closed. */
export const healedStrip: WallStripInput = {
  ...gap,
  id: 'f-3-a',
  bars: [
    bar('2025-12-18', 30, { kind: 'first', wallMm: 44 }),
    bar('2026-01-15', 36, { wallMm: 43, state: 'covered', bareFromMm: 36 }),
    { date: '2026-03-12', unused: false, state: 'open', wallMm: 43, wallMeasured: false, lowered: false },
    bar('2026-04-01', 46, { kind: 'lower-than-growth', wallMm: 45, state: 'covered', joined: 'c' }),
    { date: '2026-05-12', unused: false, state: 'healed', wallMm: 43, wallMeasured: false, lowered: false },
  ],
  wall: { mm: 43, sdMm: 2, source: 'reference', likelyTooLong: false },
  held: [],
  expected: [],
  noForecast: 'healed',
};

/** `count` readings, the top `topMm` throughout, on a wall of `wallMm`. */
export function longStrip(
  count: number,
  topMm: number,
  wallMm: number,
  over: Partial<WallStripInput> = {},
): WallStripInput {
  const kinds = [
    'first',
    'ran-up',
    'doubtful',
    'opened-further',
    'lower-than-growth',
    'held',
    'not-reached',
    'at-coronet',
  ] as const;
  return {
    ...gap,
    id: 'f-4-a',
    wall: { ...gap.wall, mm: wallMm },
    bars: Array.from({ length: count }, (_, at) =>
      bar(addDays('2025-01-28', at * (at % 3 === 0 ? 129 : 7)), topMm, {
        wallMm,
        kind: kinds[at % kinds.length]!,
        ranUpMm: 18.4,
        lostMonths: 10.4,
        expectedMm: topMm + 18.4,
        state: at % 2 ? 'covered' : 'open',
        lowered: at % 5 === 4,
        unused: at % 4 === 3,
        ...(at % 6 === 5 ? { joined: 'a-very-long-name' } : {}),
      }),
    ).sort((a, b) => (a.date < b.date ? -1 : 1)),
    held: [],
    expected: [
      { date: '2030-07-14', lowMm: Math.max(0, topMm - 30), highMm: topMm + 30 },
      { date: '2030-08-25', lowMm: topMm, highMm: topMm + 9 },
    ],
    out: { early: '2031-10-10', best: '2031-11-17', late: null },
    ...over,
  };
}

export const timeline: TimelineInput = {
  id: 'f-1-time',
  from: '2026-01-28',
  to: '2026-06-20',
  visits: [
    { date: '2026-02-03', kind: 'visit' },
    { date: '2026-03-03', kind: 'visit' },
    { date: '2026-03-15', kind: 'report' },
    { date: '2026-03-31', kind: 'visit' },
    { date: '2026-04-28', kind: 'visit' },
    { date: '2026-05-19', kind: 'missed' },
    { date: '2026-06-02', kind: 'visit' },
  ],
  gait: [
    { date: '2026-02-03', score: 3, block: 'off' },
    { date: '2026-03-03', score: 2, block: 'on' },
    { date: '2026-03-31', score: 2, block: 'off' },
    { date: '2026-04-03', score: 2.5, block: 'unclear' },
    { date: '2026-04-28', score: 1, block: 'on' },
    { date: '2026-06-02', score: 2, block: 'off' },
  ],
  gaitScale: 'mobility score, UK 0 to 3',
  blocks: [
    { foot: 'LH', claw: 'inner', from: '2026-02-03', to: '2026-03-15', endUnknown: true },
    { foot: 'LH', claw: 'inner', from: '2026-03-31', to: '2026-05-26' },
    { foot: 'RH', claw: 'outer', from: '2026-06-02' },
  ],
  wraps: [
    { foot: 'LH', from: '2026-02-03', to: '2026-02-07' },
    { foot: 'LH', from: '2026-03-31', to: '2026-04-03' },
  ],
  withheld: [
    { what: 'milk', from: '2026-03-31', to: '2026-04-04' },
    { what: 'meat', from: '2026-03-31', to: '2026-04-28' },
  ],
  vet: [
    { date: '2026-03-31', what: 'asked' },
    { date: '2026-04-02', what: 'answered' },
    { date: '2026-06-02', what: 'asked' },
  ],
  ranUp: [{ date: '2026-03-31', lesion: 'a' }],
};

export const foot: FootMapInput = {
  id: 'f-1-LH',
  foot: 'LH',
  lesions: [
    { lesion: 'a', name: 'White line disease (WL)', claw: 'outer', site: 'white line rear', healed: false },
    { lesion: 'b', name: 'Horizontal horn fissure (HFH)', claw: 'inner', site: 'dorsal wall', healed: false },
    { lesion: 'old', name: 'Sole haemorrhage (SH)', claw: 'inner', site: 'sole', healed: true },
  ],
};

export const closing: ClosingInput = {
  id: 'f-1-u',
  lesion: 'u',
  foot: 'RH',
  claw: 'outer',
  bars: [
    { date: '2026-03-03', lengthMm: 22, widthMm: 16 },
    { date: '2026-03-31', lengthMm: 17, widthMm: 10.5 },
    { date: '2026-04-14', widthMm: 12, reads: 'doubtful', unused: true },
    { date: '2026-04-28', lengthMm: 9, widthMm: 4 },
    { date: '2026-05-26', reads: 'covered' },
    { date: '2026-06-23', lengthMm: 8, widthMm: 5, reads: 'came-back' },
  ],
  expected: [{ date: '2026-07-14', lowMm: 0, highMm: 5.2 }],
};

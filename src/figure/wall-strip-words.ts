import { dayInWords, paragraph, placeInWords } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import type { WallStripInput, WallBar } from './wall-strip-input.js';
import { daysSince, lengthInWords, rangeInMm } from './time-axis.js';

export function wallStripTitle({ lesion, foot, claw, line }: WallStripInput, words: Words): string {
  return words.say('figure.wall.title', {
    lesion,
    place: placeInWords(words, foot, claw),
    line: words.say(`vocabulary.line.${line}`),
  });
}

/** What the strip shows, for somebody who hears it: how many visits, the latest reading, the next, the date or why none. */
export function wallStripDescription(input: WallStripInput, words: Words): string {
  const { bars, expected, wall } = input;
  const [first, last] = [bars[0], bars.at(-1)];
  const say = (key: string, values = {}) => words.say(`figure.wall.description.${key}`, values);
  if (!first || !last) return say('none');
  const read = bars.findLast((bar) => bar.topMm !== undefined && bar.kind !== 'not-reached');
  const next = expected[0];
  const day = (of: string) => dayInWords(words, of);
  return paragraph(
    say('visits', { count: bars.length, first: day(first.date), last: day(last.date) }),
    read && say('latest', { date: day(read.date), mm: lengthInWords(read.topMm, words) }),
    say('wall', { mm: lengthInWords(wall.mm, words) }),
    next && say('next', { date: day(next.date), low: Math.round(next.lowMm), high: Math.round(next.highMm) }),
    outInWords(input, words),
  );
}

/** Sentences under the drawing: only for marks that occur in it. `mmPerMonth`: how fast her horn slides down. */
export function wallStripNotes(input: WallStripInput, mmPerMonth: number, words: Words): string[] {
  const { bars, held, expected, wall } = input;
  const some = (test: (bar: (typeof bars)[number]) => boolean) => bars.some(test);
  const occurring: [boolean, string, Record<string, string | number>?][] = [
    [bars.length > 0, 'scale'],
    [some((bar) => bar.bareFromMm !== undefined), 'bare'],
    [some((bar) => bar.state === 'covered'), 'covered'],
    [some((bar) => bar.kind === 'ran-up'), 'ran-up'],
    [held.length > 0, 'held'],
    [some((bar) => bar.kind === 'doubtful'), 'doubtful'],
    [some((bar) => bar.kind === 'not-reached'), 'not-reached'],
    [some((bar) => bar.kind === undefined && bar.state !== 'healed'), 'no-length'],
    [some((bar) => bar.unused && bar.kind !== 'not-reached'), 'unused'],
    [some((bar) => bar.lowered), 'lowered'],
    [
      some((bar) => !bar.wallMeasured) || (wall.source === 'reference' && expected.length > 0),
      `wall-${wall.source}`,
      { mm: lengthInWords(wall.mm, words) },
    ],
    [bars.length > 0, 'slant', { mm: mmPerMonth }],
    [bars.length > 0, 'slants'],
    [input.out !== undefined, 'fan'],
  ];
  return [
    ...occurring.flatMap(([occurs, key, values]) =>
      occurs ? words.say(`figure.wall.note.${key}`, values) : [],
    ),
    // The drawing itself says a date with its range.
    ...(input.out?.early ? [] : [outInWords(input, words)]).filter((one) => one !== undefined),
  ];
}

const legendKeys = {
  wall: 'scale slants fan bare covered ran-up held doubtful not-reached no-length unused lowered',
  closing: 'scale wedge covered',
  stages: 'level',
  time: 'block wrap withheld vet unclear visit ran-up',
};

/**
 * What the marks of every drawing mean, whichever animal it is of: said once where many drawings appear together.
 *
 * Checked: tests/figure/wall-on-time.test.ts
 */
export function drawingLegend(words: Words): string[] {
  return Object.entries(legendKeys).flatMap(([figure, keys]) =>
    keys.split(' ').map((key) => words.say(`figure.${figure}.note.${key}`)),
  );
}

/** The date with its range, or why none is given. */
function outInWords(input: WallStripInput, words: Words): string | undefined {
  const { out, noForecast, ifRanUp, ifSoundHornFollows } = input;
  const day = (of: string | null) => (of === null ? '' : dayInWords(words, of));
  const say = (key: string, values = {}) => words.say(`figure.wall.note.${key}`, values);
  if (out) {
    const { early, best, late } = out;
    if (early === null) return say('out-far');
    const [whole, open] = ifSoundHornFollows ? ['out-if', 'out-if-open'] : ['out', 'out-late-open'];
    const key = best === null && !ifSoundHornFollows ? 'out-open' : late === null ? open : whole;
    return say(key, { early: day(early), best: day(best), late: day(late) });
  }
  if (!noForecast || input.bars.length === 0) return undefined;
  return paragraph(
    words.say(`figure.wall.why.${noForecast}`),
    ifRanUp?.early && ifRanUp.late
      ? say('if-ran-up', { early: day(ifRanUp.early), late: day(ifRanUp.late) })
      : undefined,
  );
}

/** Months to the nearest whole, below two to a half: finer would claim too much. @example monthsInWords(1.4, words) // → '1.5 months lost' */
export function monthsInWords(months: number, words: Words): string {
  const rounded = roundMonths(months);
  return words.say('figure.wall.bar.months', {
    count: rounded === 1 ? 1 : 2,
    months: lengthInWords(rounded, words),
  });
}

function roundMonths(months: number): number {
  return months < 2 ? Math.max(0.5, Math.round(months * 2) / 2) : Math.round(months);
}

/** Every visit of the strip, those left out of the drawing too, then what is expected. */
export function wallStripTable({ bars, expected, wall }: WallStripInput, caption: string, words: Words) {
  const say = (key: string, values = {}) => words.say(`figure.wall.${key}`, values);
  const since = daysSince([...bars, ...expected]);
  return {
    caption,
    columns: ['date', 'days', 'top', 'wall', 'expected', 'reads'].map((key) => say(`column.${key}`)),
    rows: [
      ...bars.map((bar, at) => {
        const { expectedMm: mean, expectedHalfRangeMm: half = 0 } = bar;
        return [
          dayInWords(words, bar.date),
          since[at]!,
          lengthInWords(bar.topMm, words),
          wallInWords(bar, words),
          mean === undefined ? '' : rangeInMm(mean - half, mean + half, words),
          readsAs(bar, words),
        ];
      }),
      ...expected.map(({ date, lowMm, highMm }, at) => [
        dayInWords(words, date),
        since[bars.length + at]!,
        rangeInMm(lowMm, highMm, words),
        lengthInWords(wall.mm, words),
        '',
        say('reads.expected'),
      ]),
    ],
  };
}

function wallInWords(bar: WallBar, words: Words): string {
  const mm = lengthInWords(bar.wallMm, words);
  if (bar.lowered) return words.say('figure.wall.lowered-wall', { mm });
  return bar.wallMeasured ? mm : words.say('figure.wall.usual-wall', { mm });
}

function readsAs({ kind, state, unused, ranUpMm, lostMonths }: WallBar, words: Words): string {
  const say = (key: string, values = {}) => words.say(`figure.wall.reads.${key}`, values);
  const isSized = kind === 'ran-up' && ranUpMm !== undefined && lostMonths !== undefined;
  const said = isSized
    ? say('ran-up-by', { mm: Math.round(ranUpMm), months: lengthInWords(roundMonths(lostMonths), words) })
    : say(kind ?? 'no-length');
  const reads = unused && kind !== undefined ? say('unused', { reads: said }) : said;
  if (state === undefined || state === 'open') return reads;
  const stateWord = words.say(`vocabulary.state.${state}`);
  return kind === undefined ? stateWord : say('with-state', { reads, state: stateWord });
}

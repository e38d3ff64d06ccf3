import { growthNumbers } from '../reference/growth-numbers.js';
import type { ReadingKind } from './animal-growth.js';
import {
  type GrowthLine,
  type Measured,
  type LineReading,
  isMeasured,
  type GrowingConditions,
  seasonFrom,
  unevenGrowth,
} from './growth-line.js';
import {
  type Departure,
  type Prior,
  type GrowingStretch,
  WhatIsKnown,
  expectedLength,
} from './what-is-known.js';
import { given } from '../record/given.js';

/** What a reading is judged by. */
interface Evidence {
  readonly of: GrowthLine['of'];
  readonly reading: Measured;
  /** How far off what growth alone would have brought, in SDs. */
  readonly z: number;
  /** Further up than the reading before it, beyond what two readings can tell. */
  readonly above: boolean;
  /** The reading before it is pending: doubtful, and asked for again. Then, whether that one was above its own. */
  readonly pending?: { readonly above: boolean };
  /** The reading before it was the line's first, under loose horn that is off now. */
  readonly firstUnderLooseHorn: boolean;
}

/** What is then done: take it as growth, start anew at it, start anew at the pending one and take it, or wait. */
type Taking = 'update' | 'restart' | 'restart-at-pending' | 'wait';

const { doubtfulBelow, standsBelow, lowerAbove, tellApart } = growthNumbers.tests;

/**
 * Says what kind of reading this is: the first test that it meets, in this order.
 *
 * Checked: tests/growth/judge-reading.test.ts, one case for each row
 */
function judgeReading(evidence: Evidence): { readonly kind: ReadingKind; readonly taking: Taking } {
  const { of, reading, z, above, pending, firstUnderLooseHorn } = evidence;
  if (reading.saidOpenedFurther || (firstUnderLooseHorn && above))
    return { kind: 'opened-further', taking: 'restart' };
  if (reading.saidRanUp) return { kind: 'ran-up', taking: 'restart' };
  if (reading.mm === 0 && of !== 'ulcer') return { kind: 'at-coronet', taking: 'restart' };
  if (of === 'mark' && (z < doubtfulBelow.value || z > lowerAbove.value)) {
    return { kind: 'does-not-fit', taking: 'restart' };
  }
  if (z < standsBelow.value) return { kind: above ? 'ran-up' : 'held', taking: 'restart' };
  if (z < doubtfulBelow.value && pending !== undefined) {
    return { kind: above || pending.above ? 'ran-up' : 'held', taking: 'restart-at-pending' };
  }
  if (z < doubtfulBelow.value) return { kind: 'doubtful', taking: 'wait' };
  if (z > lowerAbove.value) return { kind: 'lower-than-growth', taking: 'restart' };
  return { kind: 'grew', taking: 'update' };
}

/** Whether a reading lies further up than the one before it, by more than two readings can be off. */
function isAbove(reading: Measured, before: Measured): boolean {
  return reading.mm < before.mm - tellApart.value * Math.hypot(reading.sigmaMm, before.sigmaMm);
}

/** A reading and what was made of it. */
export interface Judged {
  readonly reading: LineReading;
  readonly kind: ReadingKind;
  readonly expected?: { readonly mm: number; readonly sdMm: number; readonly z: number };
  /** Further up than the reading before it, beyond what two readings can tell. */
  readonly above: boolean;
  readonly ranUp?: { readonly mm: number; readonly months?: number };
}

/** Where one line has come to after all its readings. */
export interface LineCourse {
  readonly line: GrowthLine;
  readonly judged: readonly Judged[];
  /** Readings that taught something. */
  readonly used: ReadonlySet<LineReading>;
  /** The reading the line last started from. */
  readonly start?: Measured;
  readonly lastUsed?: Measured;
  readonly pending?: Measured;
  /** Undefined while the line has no used reading. */
  readonly departure?: Departure;
  /** As it would be had she run up to the pending reading. */
  readonly ifRanUp?: Departure;
}

interface Following {
  readonly line: GrowthLine;
  readonly judged: Judged[];
  readonly used: Set<LineReading>;
  /** Day on which the point is carried. */
  day?: number;
  /** Nothing is expected of the next reading: it starts the line anew. */
  broken: boolean;
  start?: Measured;
  lastUsed?: Measured;
  before?: Measured;
  pending?: { readonly reading: Measured; readonly above: boolean } | undefined;
}

/**
 * Goes through all readings of an animal in the order of their days, judging each against what is
 * known by then and learning from it. On one day the lines are taken in the order given. What is known at the end is given
 * with them; each line's point then is where it was last used.
 *
 * Valid:   `leftOut`: readings inside a held stretch with what was made of them before; they are passed over as if not
 *          taken, and the next one starts the line anew
 * Checked: tests/growth/growth-cases.test.ts
 */
export function followLines(
  lines: readonly GrowthLine[],
  conditions: GrowingConditions,
  prior: Prior,
  leftOut: ReadonlyMap<LineReading, Judged> = new Map(),
) {
  const known = new WhatIsKnown(lines, prior);
  const followed: Following[] = lines.map((line) => ({ line, judged: [], used: new Set(), broken: true }));
  const inOrder = lines
    .flatMap((line, index) => line.readings.map((reading) => ({ index, reading })))
    .sort((a, b) => a.reading.day - b.reading.day);
  for (const { index, reading } of inOrder) {
    const following = followed[index]!;
    const before = leftOut.get(reading);
    if (before !== undefined) breakOff(following);
    following.judged.push(before ?? judge(following, index, reading));
  }
  return { factor: known.factor(), known, courses: followed.map(course) };

  function judge(following: Following, index: number, reading: LineReading): Judged {
    if (!isMeasured(reading)) {
      breakOff(following);
      return { reading, kind: 'not-reached', above: false };
    }
    if (following.broken && !startGroove(following, index)) {
      restart(following, index, reading);
      following.before = reading;
      return { reading, kind: 'first', above: false };
    }
    const { before, pending } = following;
    const stretch = stretchTo(following, reading.day);
    const from = known.departure(index);
    const { mean, variance } = expectedLength(from, stretch);
    const sdMm = Math.sqrt(variance + reading.sigmaMm ** 2);
    const z = (reading.mm - mean) / sdMm;
    const above = before !== undefined && isAbove(reading, before);
    const { of, readings } = following.line;
    const firstUnderLooseHorn =
      before?.underLooseHorn === true && before === readings.find(isMeasured) && !reading.underLooseHorn;
    const evidence = { of, reading, z, above, firstUnderLooseHorn, ...given({ pending }) };
    const { kind, taking } = judgeReading(evidence);
    if (taking === 'wait') following.pending = { reading, above };
    else if (taking === 'restart') restart(following, index, reading);
    else {
      if (taking === 'restart-at-pending') restart(following, index, pending!.reading);
      known.take(index, stretchTo(following, reading.day), reading.mm, reading.sigmaMm);
      settle(following, reading);
    }
    following.before = reading;
    const upBy = mean - reading.mm;
    const months = from.rate > 0 ? { months: upBy / from.rate } : {};
    const ranUp = kind === 'ran-up' && upBy > 0 ? { ranUp: { mm: upBy, ...months } } : {};
    return { reading, kind, above, expected: { mm: mean, sdMm, z }, ...ranUp };
  }

  function restart(following: Following, index: number, reading: Measured): void {
    known.start(index, reading.mm, reading.sigmaMm);
    following.start = reading;
    settle(following, reading);
  }

  function startGroove(following: Following, index: number): boolean {
    const event = following.line.grooveFrom;
    if (event === undefined || following.day !== undefined) return false;
    known.start(index, 0, growthNumbers.reading.grooveStart.value);
    following.day = event;
    following.broken = false;
    return true;
  }

  function stretchTo(following: Following, day: number): GrowingStretch {
    const days = day - following.day!;
    return { days, months: seasonFrom(following.day!, conditions).monthsAfter(days) };
  }

  function course({ line, judged, used, start, lastUsed, pending }: Following, index: number): LineCourse {
    const reading = pending?.reading;
    const departure = known.departure(index);
    return {
      line,
      judged,
      used,
      ...given({ start }),
      ...(lastUsed && { lastUsed, departure }),
      ...(reading && {
        pending: reading,
        ifRanUp: { ...departure, mm: reading.mm, mmVariance: reading.sigmaMm ** 2, mmWithRate: 0 },
      }),
    };
  }
}

function settle(following: Following, reading: Measured): void {
  following.day = reading.day;
  following.lastUsed = reading;
  following.used.add(reading);
  following.pending = undefined;
  following.broken = false;
}

function breakOff(following: Following): void {
  following.broken = true;
  following.pending = undefined;
}

/** A gap that stood still over a stretch of readings, each step of which looked possible. */
export interface SlowStretch {
  /** The reading from which on the top has not come down as horn should. */
  readonly since: Measured;
  /** The reading at which it shows. */
  readonly at: Measured;
  readonly z: number;
  /** Readings of the stretch that must not teach: all but the last. */
  readonly untaught: readonly Measured[];
}

/** One line with its held stretches. */
export interface LineFollowed extends LineCourse {
  /** Its readings as they are shown: of the first time through where the line has a held stretch. */
  readonly shown: readonly Judged[];
  /** In the order of their last readings. */
  readonly held: readonly SlowStretch[];
}

/** What was made of all readings, gaps that stood still taken out. */
export interface Followed extends Omit<ReturnType<typeof followLines>, 'courses'> {
  readonly lines: readonly LineFollowed[];
}

const { heldBelow, heldShortest, heldLongest } = growthNumbers.tests;

/**
 * Follows all lines, looks for gaps that are held slowly, and if there are any follows them once more
 * without the readings of those stretches, so that a standing gap does not teach slow horn.
 *
 * Why this way: over short intervals a standing gap looks like slow growth at every step.
 *
 * Valid:   a line with a held stretch keeps the kinds and expectations of the first time through
 * Checked: tests/growth/held-slowly.test.ts, tests/growth/growth-cases.test.ts
 */
export function followAndFindHeld(
  lines: readonly GrowthLine[],
  conditions: GrowingConditions,
  prior: Prior,
): Followed {
  const first = followLines(lines, conditions, prior);
  const held = first.courses.map((course) =>
    course.line.of === 'gap' ? heldStretches(course, conditions, prior) : [],
  );
  const untaught = new Set<LineReading>(held.flat().flatMap((stretch) => stretch.untaught));
  const made = first.courses.flatMap(({ judged }) => judged).filter(({ reading }) => untaught.has(reading));
  const leftOut = new Map(made.map((judged) => [judged.reading, judged]));
  const last = leftOut.size === 0 ? first : followLines(lines, conditions, prior, leftOut);
  const followed = last.courses.map((course, index) => {
    const own = held[index]!;
    return { ...course, shown: (own.length > 0 ? first : last).courses[index]!.judged, held: own };
  });
  return { factor: last.factor, known: last.known, lines: followed };
}

function heldStretches(
  { line, judged }: LineCourse,
  conditions: GrowingConditions,
  prior: Prior,
): SlowStretch[] {
  const readings = judged.filter((one): one is Judged & { reading: Measured } => isMeasured(one.reading));
  const stretches: SlowStretch[] = [];
  for (const [k, last] of readings.entries()) {
    const begin = beginOfStretch(readings, k);
    const since = comparedWith(readings.slice(begin, k), last.reading);
    if (since === undefined) continue;
    const z = againstPrior(line, since, last.reading, conditions, prior);
    if (z >= heldBelow.value) continue;
    const untaught = readings.slice(begin, k).map(({ reading }) => reading);
    stretches.push({ since, at: last.reading, z, untaught });
  }
  return stretches;
}

/** Back while the gap may have stood still; the reading where the way back stops belongs to the stretch. */
function beginOfStretch(readings: readonly Judged[], from: number): number {
  return Math.max(
    0,
    readings.slice(0, from + 1).findLastIndex((one) => !mayHaveStoodStill(one)),
  );
}

function mayHaveStoodStill({ kind, above }: Judged): boolean {
  return (kind === 'grew' || kind === 'doubtful' || kind === 'held') && !above;
}

/** The earliest reading not too long before; else the latest of those that are. Never one too near to tell. */
function comparedWith(earlier: readonly { reading: Measured }[], last: Measured): Measured | undefined {
  const farEnough = earlier.filter(({ reading }) => last.day - reading.day >= heldShortest.value);
  const notTooFar = farEnough.find(({ reading }) => last.day - reading.day <= heldLongest.value);
  return (notTooFar ?? farEnough.at(-1))?.reading;
}

/** How far the change over a stretch lies off what horn of this line does in such cows, in SDs. */
function againstPrior(
  line: GrowthLine,
  since: Measured,
  at: Measured,
  conditions: GrowingConditions,
  prior: Prior,
): number {
  const days = at.day - since.day;
  const down = line.rate * seasonFrom(since.day, conditions).monthsAfter(days);
  const variance =
    since.sigmaMm ** 2 +
    at.sigmaMm ** 2 +
    down ** 2 * (prior.variance + line.deviation ** 2) +
    unevenGrowth(line.rate, days);
  return (at.mm - since.mm - down * prior.mean) / Math.sqrt(variance);
}

import { growthNumbers } from '../reference/growth-numbers.js';
import { type Judged, type LineCourse, followLines } from './follow-lines.js';
import {
  type GrowthLine,
  type LineReading,
  type Measured,
  isMeasured,
  type GrowingConditions,
  seasonFrom,
  unevenGrowth,
} from './growth-line.js';
import type { Prior } from './what-is-known.js';

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

import { type MassLikelihood, massLikelihood } from './mass-likelihood.js';
import { newtonDirection } from './newton-direction.js';
import type { SpanTable } from './span-sums.js';

/**
 * The masses, one a box, that make the observed spans most likely.
 *
 * Two kinds of step take turns. Turnbull's own (each observation shares itself out over the boxes it covers, as the
 * masses stand; the shares are the new masses) never goes wrong but can take for ever. Newton's is quick near
 * the goal. It is cut off where a mass would fall below nothing, and shortened until the likelihood has grown.
 *
 * It stops when the largest slope, which bounds how much likelihood is missing, is below a thousand-millionth. With
 * thousands of spans that lean on each other rounding may not allow that: then it stops when nothing more is gained, and
 * is content with a thousand-millionth for each observation. Who needs less may start `from` masses near the best, each above 0,
 * and ask only that so much likelihood be missing as `shown` allows.
 *
 * Error:   Error if the masses cannot be shown to be the best; none is known to do so
 * Source:  B. W. Turnbull (1976), the first step; D. P. Bertsekas (1982), Newton's with a bound at nothing; the two
 *          combined: own
 * Checked: tests/statistics/interval-censored-survival.test.ts
 * @example [...mostLikelyMasses({ boxes: 1, first: [0], end: [1], count: [2], observations: 2 }).masses] // → [1]
 */
export function mostLikelyMasses(
  table: SpanTable,
  { from, shown = shownBest }: { from?: Float64Array; shown?: number } = {},
): MostLikely {
  let masses = from ? madeOne(from) : new Float64Array(table.boxes).fill(1 / table.boxes);
  let best: MostLikely = { masses, ...massLikelihood(table, masses) };
  let roundsWithoutGain = 0;
  for (let round = 0; round < 500; round++) {
    for (let k = 0; k < 20; k++) masses = sharedOut(table, masses);
    const at = massLikelihood(table, masses);
    roundsWithoutGain = at.shortBy < best.shortBy / 2 ? 0 : roundsWithoutGain + 1;
    if (at.shortBy < best.shortBy) best = { masses, ...at };
    const allowed = roundsWithoutGain < 8 ? shown : shown * table.observations;
    if (best.shortBy <= allowed) return best;
    masses = steppedUp(table, masses, at);
  }
  throw new Error(`no best masses found: still short by up to ${best.shortBy}`);
}

type MostLikely = MassLikelihood & { readonly masses: Float64Array };

const shownBest = 1e-9;

function sharedOut(table: SpanTable, masses: Float64Array): Float64Array<ArrayBuffer> {
  const { slope } = massLikelihood(table, masses);
  return madeOne(masses.map((mass, box) => mass * Math.max(0, 1 + slope[box]! / table.observations)));
}

/**
 * Newton's step, halved until it gains. The gain is measured on the log-likelihood less observations × sum of the
 * masses, whose peak over all masses, of whatever sum, is the one sought.
 */
function steppedUp(
  table: SpanTable,
  masses: Float64Array<ArrayBuffer>,
  at: MassLikelihood,
): Float64Array<ArrayBuffer> {
  const direction = newtonDirection(table, masses, at);
  const start = at.logLikelihood - table.observations;
  for (let share = 1; share > 1e-9; share /= 2) {
    const next = masses.map((mass, box) => Math.max(0, mass + share * direction[box]!));
    let promised = 0;
    for (let box = 0; box < next.length; box++) promised += at.slope[box]! * (next[box]! - masses[box]!);
    const { logLikelihood } = massLikelihood(table, next);
    const gained = logLikelihood - table.observations * sumOf(next) - start;
    if (gained >= 1e-4 * promised && promised > 0) return madeOne(next);
    if (Math.abs(promised) < withinRounding && gained >= -withinRounding) return madeOne(next);
  }
  return masses;
}

const withinRounding = 1e-9;

function madeOne(masses: Float64Array): Float64Array<ArrayBuffer> {
  const sum = sumOf(masses);
  return masses.map((mass) => mass / sum);
}

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}

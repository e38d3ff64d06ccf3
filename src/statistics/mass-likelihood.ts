import { type SpanTable, sumInSpans, sumOverBoxes } from './span-sums.js';

/** How well a set of masses fits the observations, and where it would fit better. */
export interface MassLikelihood {
  /** The chance each span has under these masses. */
  readonly chances: Float64Array;
  /** Sum of the logarithms of the chances, each as often as it was observed; −∞ if some chance is 0. */
  readonly logLikelihood: number;
  /** For each box: how fast the log-likelihood grows with its mass, less the number of observations. */
  readonly slope: Float64Array;
  /** The largest slope: no other masses can have a log-likelihood higher by more than this. */
  readonly shortBy: number;
}

/**
 * The likelihood of masses put in boxes, with its slope.
 *
 * The masses are the best there are exactly when no slope is above 0 (the condition of Karush, Kuhn and Tucker;
 * where there is mass the slope is then 0). And the logarithm bends downward, so a set of masses that is not the best
 * falls short of it by at most its largest slope: that is what makes a claim of "best" one that can be checked.
 *
 * Source:  R. Gentleman and C. J. Geyer (1994); B. G. Lindsay (1983)
 * Checked: tests/laws/statistics-interval-censored.test.ts, against random other masses
 * @example massLikelihood({ boxes: 1, first: [0], end: [1], count: [2], observations: 2 }, [1]).shortBy // → 0
 */
export function massLikelihood(table: SpanTable, masses: Float64Array): MassLikelihood {
  const chances = sumInSpans(table, masses);
  let logLikelihood = 0;
  const pull = new Float64Array(chances.length);
  for (let i = 0; i < chances.length; i++) {
    const count = table.count[i]!;
    logLikelihood += chances[i]! > 0 ? count * Math.log(chances[i]!) : -Infinity;
    pull[i] = count / chances[i]!;
  }
  const slope = sumOverBoxes(table, pull);
  let shortBy = -Infinity;
  for (let box = 0; box < slope.length; box++) {
    slope[box]! -= table.observations;
    shortBy = Math.max(shortBy, slope[box]!);
  }
  return { chances, logLikelihood, slope, shortBy };
}

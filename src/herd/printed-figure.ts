import { given } from '../record/given.js';
import { herdNumbers } from '../reference/numbers.js';
import type { Bounds, Estimate } from '../statistics/estimate.js';
import { median } from '../statistics/median.js';
import { boundsOutward, wilsonShare } from '../statistics/wilson-share.js';

const { leastAnimals, level, widestBounds } = herdNumbers.figures;

/**
 * The one rule of which figure may be printed, whatever the page: it is based on two animals or more, and its bounds, which
 * always are beside it, span no more than half of its scale. Where it returns nothing, the cases, or their counts, instead.
 *
 * Shape:   a figure, the animals it is based on, the length of its scale (a share's is 1) → the figure, or undefined
 * Source:  shared/herd.json `leastAnimals`, `widestBounds`
 * Checked: tests/herd/printed-figure.test.ts
 * @example printed({ value: 0.3, low: 0, high: 0.93 }, 13) // → undefined
 */
export function printed<Figure extends Bounds>(
  figure: Figure | undefined,
  animals: number,
  scale = 1,
): Figure | undefined {
  if (!figure || animals < leastAnimals.value) return undefined;
  return figure.high - figure.low <= widestBounds.value * scale ? figure : undefined;
}

/**
 * A share of so many counted, where it may be printed; with Wilson's bounds. Undefined of none, or with more counted than there are.
 * @example printedShare(24, 205)?.value // → 0.11707317073170732
 */
export function printedShare(counted: number, of: number, animals = of): Estimate | undefined {
  if (of < 1 || counted > of) return undefined;
  return printed(wilsonShare(counted, of, { level: level.value }), animals);
}

/** A mean of shares, each an animal's own, where it may be printed: with bounds as if it had been counted of so many animals. @example printedMeanShare(0.5, 3) // → undefined */
export function printedMeanShare(mean: number, animals: number): Estimate | undefined {
  if (animals < 1) return undefined;
  return printed({ value: mean, ...boundsOutward({ low: mean, high: mean }, animals, level.value) }, animals);
}

/** What so many cases took: the median where it may be printed, and each, from least to most, for where it may not. */
export type Spread = Readonly<{ each: readonly number[]; median?: Estimate }>;

/**
 * The median's scale runs from nothing to the most that was seen.
 * @example spreadOf([1, 2, 2, 7], 4) // → { each: [1, 2, 2, 7] }
 */
export function spreadOf(values: readonly number[], animals: number): Spread | undefined {
  const each = values.toSorted((a, b) => a - b);
  const most = each.at(-1);
  if (most === undefined) return undefined;
  return { each, ...given({ median: printed(median(each, { level: level.value }), animals, most) }) };
}

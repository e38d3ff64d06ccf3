import { printedShare } from '../herd/printed-figure.js';
import { herdNumbers } from '../reference/numbers.js';
import type { Words } from '../reference/words.js';
import type { Bounds } from '../statistics/estimate.js';

/** A share or a ratio as whole per cent. @example percent(0.803) // → 80 */
export function percent(share: number): number {
  return Math.round(100 * share);
}

/** How sure the bounds of figures are, in per cent. */
export const levelPercent = percent(herdNumbers.figures.level.value);

/** The bounds that are beside a share. @example boundsInWords(words, { low: 0.08, high: 0.17 }) // → '95\u00a0% confidence interval 8 to 17\u00a0%' */
export function boundsInWords(words: Words, { low, high }: Bounds): string {
  return words.say('herd.share.bounds', { level: levelPercent, low: percent(low), high: percent(high) });
}

/**
 * So many of so many; with the per cent and, on a line of its own, its bounds only where a figure may be printed.
 * @example shareInWords(words, 24, 205) // → ['24 of 205 (12\u00a0%)', '95\u00a0% confidence interval 8 to 17\u00a0%']
 */
export function shareInWords(words: Words, count: number, of: number, animals = of): string[] {
  const share = printedShare(count, of, animals);
  if (!share) return [words.say('herd.share.counts', { count, of })];
  const said = words.say('herd.share.percent', { count, of, percent: percent(share.value) });
  return [said, boundsInWords(words, share)];
}

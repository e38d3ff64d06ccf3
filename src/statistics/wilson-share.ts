import { type Bounds, checkedLevel, type Estimate } from './estimate.js';
import { normalQuantile } from './normal.js';

/**
 * A share of so many out of all, with Wilson's bounds.
 *
 * They are the shares from which the one seen lies just at the edge of chance. Unlike share ± error they never leave 0 to 1, and
 * none out of twenty still has an upper bound above 0.
 *
 * Unit:    a share, 0 to 1
 * Valid:   whole numbers, 0 up to all; all from 1
 * Error:   RangeError
 * Source:  E. B. Wilson (1927), the score interval; compared with others by R. G. Newcombe (1998)
 * Checked: tests/statistics/shares-and-rates.test.ts, against Newcombe's table
 * @example wilsonShare(0, 20).low // → 0
 */
export function wilsonShare(
  counted: number,
  all: number,
  { level = 0.95 }: { level?: number } = {},
): Estimate {
  const whole = Number.isInteger(counted) && Number.isInteger(all);
  if (!whole || counted < 0 || all < 1 || counted > all) {
    throw new RangeError(`${counted} of ${all}: expected whole numbers, the first no larger than the second`);
  }
  const squared = normalQuantile((1 + checkedLevel(level)) / 2) ** 2;
  const middle = counted + squared / 2;
  const reach = Math.sqrt(squared * ((counted * (all - counted)) / all + squared / 4));
  return {
    value: counted / all,
    low: counted === 0 ? 0 : (middle - reach) / (all + squared),
    high: counted === all ? 1 : (middle + reach) / (all + squared),
  };
}

/**
 * Bounds of a share known only to lie between two others, or of a mean of shares: as if so many had been counted, to the
 * next whole count outward.
 *
 * Checked: tests/herd/printed-figure.test.ts, tests/statistics/share-bounds.test.ts
 * @example boundsOutward({ low: 0, high: 1 }, 0, 0.95) // → { low: 0, high: 1 }
 */
export function boundsOutward({ low, high }: Bounds, all: number, level: number): Bounds {
  if (all === 0) return { low: 0, high: 1 };
  const within = 1e-6;
  return {
    low: wilsonShare(Math.max(0, Math.floor(low * all + within)), all, { level }).low,
    high: wilsonShare(Math.min(all, Math.ceil(high * all - within)), all, { level }).high,
  };
}

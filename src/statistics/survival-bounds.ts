import type { Bounds } from './bounds.js';
import { normalQuantile } from './normal-quantile.js';

/** The scale on which the error of a survival share is taken as normal. */
export type ErrorScale = 'plain' | 'log' | 'log-log';

/**
 * Bounds for a survival share, from the error of its logarithm.
 *
 * On the plain scale and the logarithmic one a bound can leave 0 to 1 and is then cut off there; log(−log) never leaves
 * it and holds its promise best with few cases, so it is the one to print. The others are here to be compared
 * with.
 *
 * Valid:   a share above 0 and below 1; at 0 the error is not defined and neither are the bounds
 * Source:  J. D. Kalbfleisch and R. L. Prentice, The Statistical Analysis of Failure Time Data (1980);
 *          O. Borgan and K. Liestøl (1990)
 * Checked: tests/statistics/survival-reference.test.ts, against bounds by their definition
 * @example survivalBounds(0.5, 0, 0.95, 'plain') // → { low: 0.5, high: 0.5 }
 */
export function survivalBounds(share: number, errorOfLog: number, level: number, scale: ErrorScale): Bounds {
  const reach = normalQuantile((1 + level) / 2) * errorOfLog;
  if (scale === 'plain') {
    return { low: Math.max(0, share - share * reach), high: Math.min(1, share + share * reach) };
  }
  if (scale === 'log') return { low: share * Math.exp(-reach), high: Math.min(1, share * Math.exp(reach)) };
  const turned = reach / Math.log(share);
  return { low: share ** Math.exp(-turned), high: share ** Math.exp(turned) };
}

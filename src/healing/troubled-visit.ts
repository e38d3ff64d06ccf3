import type { Visit } from '../record/visit.js';
import type { Sign } from '../record/words.js';
import { gaitScale } from '../reference/scales.js';
import { isActive } from './dermatitis-stage.js';

/** Signs of horn that many a sound cow has. */
const slight: ReadonlySet<Sign> = new Set([
  'smell',
  'loose horn',
  'white line stretched',
  'soft horn',
  'crumbly horn',
]);

/** From here on she is lame on every scale, whichever the farm's is. */
const lameOnAll = Object.values(gaitScale).reduce((most, { lameFrom }) => Math.max(most, lameFrom), 0);

/**
 * A visit that found something not healed: an open, covered or present lesion, active dermatitis, infection; or at which
 * anybody saw a sign of illness on the animal, or of more than horn on a foot, or a walk that is lame on every scale.
 *
 * Checked: tests/healing/standing-of-case.test.ts
 */
export function isTroubled(visit: Visit): boolean {
  const onFeet = Object.values(visit.feet ?? {}).flatMap(({ signs = [] }) => signs);
  const found = Object.values(visit.found ?? {});
  const seen = [...onFeet, ...found.flatMap(({ signs = [] }) => signs)];
  if ((visit.gait ?? 0) >= lameOnAll) return true;
  if ((visit.signs ?? []).length > 0 || seen.some((sign) => !slight.has(sign))) return true;
  return found.some(
    (one) =>
      one.infected === true ||
      one.state === 'open' ||
      one.state === 'covered' ||
      one.state === 'present' ||
      (one.stage !== undefined && isActive(one.stage)),
  );
}

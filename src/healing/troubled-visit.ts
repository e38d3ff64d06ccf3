import type { Visit } from '../record/visit.js';
import { isActive } from './dermatitis-stage.js';

/** A visit that found something not healed: an open, covered or present lesion, active dermatitis, or infection. */
export function isTroubled(visit: Visit): boolean {
  return Object.values(visit.found ?? {}).some(
    (found) =>
      found.infected === true ||
      found.state === 'open' ||
      found.state === 'covered' ||
      found.state === 'present' ||
      (found.stage !== undefined && isActive(found.stage)),
  );
}

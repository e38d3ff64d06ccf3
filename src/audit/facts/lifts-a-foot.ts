import { footSeen } from '../../healing/foot-seen.js';
import type { Animal } from '../../record/animal.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Visit } from '../../record/visit.js';
import { feet } from '../../record/words.js';

/**
 * Whether a foot came off the ground at a visit: only such a visit keeps a recheck.
 *
 * A word from the farm and a cow not presented lift none. Nor does a visit that only says which feet stayed down.
 */
export function liftsAFoot(animal: Animal, visit: Visit): boolean {
  if (!isLiftingVisit(visit)) return false;
  if (feet.some((foot) => footSeen(animal, visit, foot))) return true;
  const leftDown =
    Object.values(visit.feet ?? {}).some(({ lifted }) => lifted === false) ||
    Object.values(visit.found ?? {}).some(({ lifted }) => lifted === false);
  return !leftDown;
}

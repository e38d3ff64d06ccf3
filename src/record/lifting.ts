import type { Found, Visit } from './visit.js';
import type { Foot } from './words.js';

/** A visit at which feet were lifted: neither word from farm or vet nor a cow not presented. */
export function isLiftingVisit(visit: Visit): boolean {
  return visit.kind !== 'report' && visit.kind !== 'missed';
}

/** The foot stayed on the ground at this visit, or this lesion on it was not looked at: nothing of it was measured. */
export function isLeftDown(visit: Visit, foot: Foot, found?: Found): boolean {
  return !isLiftingVisit(visit) || found?.lifted === false || visit.feet?.[foot]?.lifted === false;
}

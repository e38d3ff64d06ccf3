import type { Found, Visit } from './visit.js';
import type { Foot, VisitKind } from './words.js';
import type { Animal } from './animal.js';

/** A visit at which feet were lifted: neither word from farm or vet nor a cow not presented. */
export function isLiftingVisit(visit: Visit): boolean {
  return visit.kind !== 'report' && visit.kind !== 'missed';
}

/** The foot stayed on the ground at this visit, or this lesion on it was not looked at: nothing of it was measured. */
export function isLeftDown(visit: Visit, foot: Foot, found?: Found): boolean {
  return !isLiftingVisit(visit) || found?.lifted === false || visit.feet?.[foot]?.lifted === false;
}

/** What kind of visit one on this day is, where nobody says: the first of an episode, else a recheck. */
export function kindOfVisit({ visits, episodes = [] }: Animal, date: string): VisitKind {
  const since = episodes.findLast(({ ended }) => ended !== undefined && ended <= date)?.ended ?? '';
  const seen = visits.some((visit) => isLiftingVisit(visit) && visit.date > since && visit.date <= date);
  return seen ? 'recheck' : 'first';
}

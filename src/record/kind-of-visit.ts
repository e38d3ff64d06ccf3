import type { Animal } from './animal.js';
import { isLiftingVisit } from './lifting.js';
import type { VisitKind } from './words.js';

/** What kind of visit one on this day is, where nobody says: the first of an episode, else a recheck. */
export function kindOfVisit({ visits, episodes = [] }: Animal, date: string): VisitKind {
  const since = episodes.findLast(({ ended }) => ended !== undefined && ended <= date)?.ended ?? '';
  const seen = visits.some((visit) => isLiftingVisit(visit) && visit.date > since && visit.date <= date);
  return seen ? 'recheck' : 'first';
}

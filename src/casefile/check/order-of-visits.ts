import type { Animal } from '../../record/animal.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/**
 * Visits stand oldest first; on one day their times decide, and one person lifts her once.
 *
 * A visit dated after today is refused as such, and those after it are not measured by it.
 */
export function checkOrderOfVisits({ visits }: Animal, { today }: AnimalCheckContext): Finding[] {
  return visits.flatMap((visit, i) => {
    const found: Finding[] = [];
    const before = visits[i - 1];
    if (before && visit.date < before.date && before.date <= today)
      found.push(
        refuse(
          'visits-out-of-order',
          ['visits', i, 'date'],
          `the visit of ${visit.date} stands after the visit of ${before.date}, expected oldest first`,
          'move the visit to its place by date, or correct its date',
        ),
      );
    if (before && visit.date === before.date && visit.at && before.at && visit.at < before.at)
      found.push(
        refuse(
          'visit-times-out-of-order',
          ['visits', i, 'at'],
          `on ${visit.date} the visit at ${visit.at} stands after the one at ${before.at}, expected earliest first`,
          'put the earlier visit first, or correct its time',
        ),
      );
    const twin = visits.findIndex(
      (other) => other.date === visit.date && samePerson(other.by, visit.by) && isLiftingVisit(other),
    );
    if (isLiftingVisit(visit) && twin < i && twin >= 0)
      found.push(
        refuse(
          'visited-twice',
          ['visits', i, 'date'],
          `${visit.by} has two visits with feet lifted on ${visit.date}, expected one`,
          'put both into one visit; word from farm or vet on that day is `kind: report`',
        ),
      );
    return found;
  });
}

function samePerson(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}

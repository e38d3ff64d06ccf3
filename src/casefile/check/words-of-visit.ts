import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';

/** What only a missed visit says, and what it cannot say. */
export function checkWordsOfVisit({ visits }: Animal): Finding[] {
  return visits.flatMap((visit, i) => {
    if (visit.kind !== 'missed')
      return visit.why === undefined
        ? []
        : [
            refuse(
              'why-not-missed',
              ['visits', i, 'why'],
              `why stands in a ${visit.kind} visit, expected only where she was missed`,
              'write it as `note`, or correct `kind`',
              'key',
            ),
          ];
    const found: Finding[] = [];
    if (visit.why === undefined)
      found.push(
        warn(
          'missed-without-why',
          ['visits', i, 'kind'],
          `the visit of ${visit.date} was missed and does not say why`,
          'add `why`, for example `why: "not in the pen"`',
        ),
      );
    if (Object.keys(visit.found ?? {}).length > 0)
      found.push(
        warn(
          'found-in-missed',
          ['visits', i, 'found'],
          `the visit of ${visit.date} was missed and has findings, expected none: she was not presented`,
          'correct `kind`: word from farm or vet is `report`',
          'key',
        ),
      );
    return found;
  });
}

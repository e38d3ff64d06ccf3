import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { warn } from './finding-at.js';

/** A gait scored on a block is another variable, so a block she is said to walk on should be in the record. */
export function checkOnBlock({ visits }: Animal): Finding[] {
  const first = visits.findIndex(({ blocks }) => (blocks ?? []).length > 0);
  return visits.flatMap((visit, i) =>
    visit['on-block'] && (first < 0 || i < first)
      ? [
          warn(
            'on-block-without-block',
            ['visits', i, 'on-block'],
            `on-block is true on ${visit.date}, and no visit up to then has a block`,
            "add the block; somebody else's is `event: already on`",
          ),
        ]
      : [],
  );
}

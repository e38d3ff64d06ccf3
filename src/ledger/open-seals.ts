import { farmSealsInOrder, sealsInOrder } from './all-seals.js';
import type { RecordSeal } from './record-seal.js';
import type { FarmSeals } from './seals-of-farm.js';

/** The records that are not sealed as they are now and could be; a picture that is not there cannot. */
export function openSeals(seals: FarmSeals): RecordSeal[] {
  const all = [...farmSealsInOrder(seals), ...[...seals.animals.values()].flatMap(sealsInOrder)];
  return all.filter(
    ({ kind, state, now }) =>
      ['unsealed', 'grown', 'amended'].includes(state) && (kind !== 'picture' || 'bytes' in now.content),
  );
}

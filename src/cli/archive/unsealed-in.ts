import { farmSealsInOrder, sealsInOrder } from '../../ledger/all-seals.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';

/** How many records of a farm are not sealed as they are now. */
export function unsealedIn(seals: FarmSeals): number {
  return [...farmSealsInOrder(seals), ...[...seals.animals.values()].flatMap(sealsInOrder)].filter(
    ({ state }) => state !== 'sealed',
  ).length;
}

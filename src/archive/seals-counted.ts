import { farmSealsInOrder, sealsInOrder } from '../ledger/all-seals.js';
import type { FarmSeals } from '../ledger/seals-of-farm.js';

/** How many records a farm has that can be sealed, and how many of them are, as they stand now. */
export function sealsCounted(seals: FarmSeals): { readonly records: number; readonly sealed: number } {
  const all = [...farmSealsInOrder(seals), ...[...seals.animals.values()].flatMap(sealsInOrder)];
  return { records: all.length, sealed: all.filter(({ state }) => state === 'sealed').length };
}

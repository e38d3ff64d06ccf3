import type { FarmRecord } from '../record/practice.js';
import { emptyLedger } from './read-ledger.js';
import { type FarmSeals, sealsOfFarm } from './seals-of-farm.js';

/** A farm's records where nothing is known of a ledger: each as it is, none sealed. */
export function unsealed({ farm, cases }: FarmRecord): FarmSeals {
  return sealsOfFarm({ farm, animals: cases }, emptyLedger, () => undefined);
}

import type { RecordSeal } from './record-seal.js';
import type { AnimalSeals } from './seals-of-animal.js';
import type { FarmSeals } from './seals-of-farm.js';

/** One animal's records in the order they are sealed: what others rest on first, each picture behind its visit. */
export function sealsInOrder({ identity, lesions, marks, episodes, visits }: AnimalSeals): RecordSeal[] {
  return [
    identity,
    ...lesions,
    ...marks,
    ...episodes,
    ...visits.flatMap((visit) => [visit, ...visit.pictures]),
  ];
}

/** A farm's own records in the order they are sealed. */
export function farmSealsInOrder({ scales, gaitRounds, footbath, plan }: FarmSeals): RecordSeal[] {
  return [...(scales ? [scales] : []), ...gaitRounds, ...footbath, ...(plan ? [plan] : [])];
}

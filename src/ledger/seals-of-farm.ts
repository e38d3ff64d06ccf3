import type { Farm } from '../record/farm.js';
import { type Head, headOf, type Ledger, emptyLedger } from './read-ledger.js';
import { pairRecords } from './pair-records.js';
import type { RecordSeal } from './record-seal.js';
import { type PictureLookup, sealableAnimal, sealableFarm } from './sealable.js';
import { type SealedAnimal, sealedAnimals, type SealedRecord, sealedRecords } from './sealed-records.js';
import { type AnimalSeals, recordSeal, sealsOfAnimal } from './seals-of-animal.js';
import type { Animal } from '../record/animal.js';
import { sameContent } from './ledger-entry.js';
import type { FarmRecord } from '../record/practice.js';

/** A farm's records as they are now; `farm` undefined: its file does not read, and nothing of it is compared. */
interface FarmNow {
  readonly farm: Farm | undefined;
  readonly animals: readonly AnimalNow[];
}

/** All of a farm's records, each beside its seal. */
export interface FarmSeals {
  readonly ledger: Ledger;
  /** Undefined where nothing is sealed: a farm may be kept for years before it is. */
  readonly head: Head | undefined;
  readonly scales: RecordSeal | undefined;
  readonly gaitRounds: readonly RecordSeal[];
  readonly footbath: readonly RecordSeal[];
  readonly plan: RecordSeal | undefined;
  /** By the name of her file. */
  readonly animals: ReadonlyMap<string, AnimalSeals>;
  /** Sealed of `farm.md`, not withdrawn, and no longer there. */
  readonly missing: readonly SealedRecord[];
  /** Sealed animals no file is left for. */
  readonly missingAnimals: readonly SealedAnimal[];
  readonly known: readonly SealedRecord[];
}

/**
 * Holds a farm's records against its ledger.
 *
 * Shape:   records as read, the ledger, what pictures there are → each record with its seal; what is missing
 * Error:   never throws; what is wrong is a state (`sealTroubles`)
 * Checked: tests/ledger/
 */
export function sealsOfFarm(now: FarmNow, ledger: Ledger, picture: PictureLookup): FarmSeals {
  const known = sealedRecords(ledger);
  const animals = sealedAnimals(known);
  const matched = matchAnimals(animals, now.animals);
  const found = new Set(matched.values());
  return {
    ledger,
    head: headOf(ledger),
    ...sealsOfFarmFile(now.farm, known),
    animals: new Map(
      now.animals.map(({ slug, animal }) => {
        const hers = sealableAnimal(animal, (file) => picture(file, slug));
        return [slug, sealsOfAnimal(hers, matched.get(slug))];
      }),
    ),
    missingAnimals: animals.filter((one) => !found.has(one)),
    known,
  };
}

type OfFarmFile = Pick<FarmSeals, 'scales' | 'gaitRounds' | 'footbath' | 'plan' | 'missing'>;

function sealsOfFarmFile(farm: Farm | undefined, known: readonly SealedRecord[]): OfFarmFile {
  if (!farm) return { scales: undefined, gaitRounds: [], footbath: [], plan: undefined, missing: [] };
  const now = sealableFarm(farm);
  const of = (kind: string): SealedRecord[] =>
    known.filter(({ first, last }) => last !== undefined && first.kind === kind);
  const rounds = pairRecords(of('gait-round'), now.gaitRounds);
  const periods = pairRecords(of('footbath'), now.footbath);
  const [scales, plan] = [of('scales').at(-1), of('plan').at(-1)];
  // A later plan takes the place of an earlier one, which stays in the chain.
  const newer =
    now.plan && plan && now.plan.on! > plan.last!.on! && now.plan.content['amended'] === undefined;
  return {
    scales: now.scales && recordSeal(now.scales, scales),
    gaitRounds: now.gaitRounds.map((one, at) => recordSeal(one, rounds.sealed[at])),
    footbath: now.footbath.map((one, at) => recordSeal(one, periods.sealed[at])),
    plan: now.plan && recordSeal(now.plan, newer ? undefined : plan),
    missing: [
      ...rounds.missing,
      ...periods.missing,
      ...(scales && !now.scales ? [scales] : []),
      ...(plan && !now.plan ? [plan] : []),
    ],
  };
}

/** One animal's file as it is now. */
interface AnimalNow {
  readonly slug: string;
  readonly animal: Animal;
}

/**
 * Which file is which sealed animal's. Her file may have another name since, and she another number with the old one
 * under `earlier`; a cow that has her number now is distinguished from her by the visits.
 *
 * Shape:   → the sealed animal of each file that has one, by its slug
 * Checked: tests/ledger/matching.test.ts
 */
function matchAnimals(
  known: readonly SealedAnimal[],
  now: readonly AnimalNow[],
): ReadonlyMap<string, SealedAnimal> {
  const matched = new Map<string, SealedAnimal>();
  const bySlug = new Map(now.map((one) => [one.slug, one]));
  const wearing = byNumber(now);
  const unsure: { readonly sealed: SealedAnimal; readonly one: AnimalNow; visits: number; near: number }[] =
    [];
  for (const sealed of known) {
    const likely = new Set([
      ...[...sealed.files].flatMap((file) => bySlug.get(file) ?? []),
      ...[...sealed.numbers].flatMap((number) => wearing.get(number) ?? []),
    ]);
    const [only] = likely;
    if (only && likely.size === 1 && howNear(sealed, only) === 4) matched.set(only.slug, sealed);
    else
      for (const one of likely)
        unsure.push({ sealed, one, visits: visitsOf(sealed, one), near: howNear(sealed, one) });
  }
  unsure.sort((a, b) => b.visits - a.visits || b.near - a.near);
  const found = new Set(matched.values());
  for (const { sealed, one } of unsure)
    if (!found.has(sealed) && !matched.has(one.slug)) {
      matched.set(one.slug, sealed);
      found.add(sealed);
    }
  return matched;
}

/** The files of each number, whether it is borne now or was. */
function byNumber(now: readonly AnimalNow[]): Map<string, AnimalNow[]> {
  const wearing = new Map<string, AnimalNow[]>();
  for (const one of now) {
    const own = (one.animal.earlier ?? []).flatMap(({ animal }) => animal ?? []);
    for (const number of new Set([one.animal.animal, ...own]))
      wearing.set(number, [...(wearing.get(number) ?? []), one]);
  }
  return wearing;
}

/** How many of her sealed visits are in a file as they were sealed. */
function visitsOf({ records }: SealedAnimal, { animal }: AnimalNow): number {
  return records.filter(({ first, last }) => {
    if (first.kind !== 'visit' || !last) return false;
    return animal.visits.some(
      ({ photos: _photos, ...visit }) => visit.date === last.on && sameContent(visit, last.content),
    );
  }).length;
}

function howNear({ file, number, numbers }: SealedAnimal, { slug, animal }: AnimalNow): number {
  if (slug === file && animal.animal === number) return 4;
  if (number !== undefined && animal.earlier?.some((one) => one.animal === number) === true) return 3;
  return numbers.has(animal.animal) ? 2 : 1;
}

/** One animal's records in the order they are sealed: what others are based on first, each picture behind its visit. */
export function sealsInOrder({ identity, lesions, marks, episodes, visits }: AnimalSeals): RecordSeal[] {
  const inVisits = visits.flatMap((visit) => [visit, ...visit.pictures]);
  return [identity, ...lesions, ...marks, ...episodes, ...inVisits];
}

/** A farm's own records in the order they are sealed. */
export function farmSealsInOrder({ scales, gaitRounds, footbath, plan }: FarmSeals): RecordSeal[] {
  return [...(scales ? [scales] : []), ...gaitRounds, ...footbath, ...(plan ? [plan] : [])];
}

/** Whether a record could be sealed as it is now; a picture that is not there cannot. */
export function isToSeal({ kind, state, now }: RecordSeal): boolean {
  const isOpen = state === 'unsealed' || state === 'grown' || state === 'amended';
  return isOpen && (kind !== 'picture' || 'bytes' in now.content);
}

/** The records that are not sealed as they are now and could be. */
export function openSeals(seals: FarmSeals): RecordSeal[] {
  return allSeals(seals).filter(isToSeal);
}

/** All records of a farm and its animals, in the order they are sealed. */
export function allSeals(seals: FarmSeals): RecordSeal[] {
  return [...farmSealsInOrder(seals), ...[...seals.animals.values()].flatMap(sealsInOrder)];
}

/** A farm's records where nothing is known of a ledger: each as it is, none sealed. */
export function unsealed({ farm, cases }: FarmRecord): FarmSeals {
  return sealsOfFarm({ farm, animals: cases }, emptyLedger, () => undefined);
}

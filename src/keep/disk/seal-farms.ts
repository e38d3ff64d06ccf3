import { recordInWords } from '../../casefile/check/check-seals.js';
import type { FoundFarm } from '../../casefile/find-case-files.js';
import type { Head } from '../../ledger/head-of.js';
import type { LedgerEntry } from '../../ledger/ledger-entry.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { BrokenSeal } from '../../ledger/withdrawals.js';
import type { Keeping } from '../change.js';
import { findFolder } from '../find-kept.js';
import type { Disk } from './disk.js';
import { type Sealing, type SealAsked, workOutSealing, writeSealing } from './seal-farm.js';
import { underLocks } from './under-locks.js';

/** What came of sealing one farm by hand. */
export interface SealedFarm {
  readonly farm: string;
  readonly added: readonly LedgerEntry[];
  readonly head: Head | undefined;
  /** Files left unsealed because of an error in them. */
  readonly leftOut: readonly string[];
  /** Why nothing was sealed; undefined where all went well. */
  readonly why?: string;
}

/** What was taken out of the records on purpose, by whom and why. */
export interface TakenOut {
  /** The name of her file or her number; undefined: of `farm.md`. */
  readonly animal: string | undefined;
  readonly by: string;
  readonly why: string;
}

/**
 * Seals all that is unsealed on the farms named, each under its lock.
 *
 * `takenOut` withdraws in the open the seals of what is no longer there; what was changed is never withdrawn so.
 *
 * Error:   a farm that cannot be sealed says why; what the file system throws where the ledger cannot be written
 * Checked: tests/cli/seal.test.ts
 */
export async function sealFarms(
  disk: Disk,
  keeping: Keeping,
  farms: readonly string[],
  { dryRun = false, takenOut }: { readonly dryRun?: boolean; readonly takenOut?: TakenOut } = {},
): Promise<SealedFarm[]> {
  const found = findFolder(keeping);
  const wanted = found.outcome === 'found' ? found.farms.filter(({ slug }) => farms.includes(slug)) : [];
  const done: SealedFarm[] = [];
  for (const farm of wanted) {
    const work = (): Sealing =>
      workOutSealing(disk.files, farm, { today: keeping.today, day: disk.today() }, asked(takenOut));
    const worked = dryRun
      ? work()
      : await underLocks(disk, [farm.entry.path], () => written(disk, farm, work()));
    done.push(asSealed(farm, worked));
  }
  return done;
}

function written(disk: Disk, farm: FoundFarm, sealing: Sealing): Sealing {
  if (sealing.outcome === 'sealed') writeSealing(disk, farm, sealing);
  return sealing;
}

function asSealed(
  { slug }: FoundFarm,
  worked: Sealing | { readonly outcome: 'cannot'; readonly message: string },
): SealedFarm {
  if (worked.outcome === 'sealed')
    return { farm: slug, added: worked.added, head: worked.head, leftOut: worked.leftOut };
  const why = worked.outcome === 'cannot' ? worked.message : worked.why;
  return { farm: slug, added: [], head: undefined, leftOut: [], why };
}

function asked(takenOut: TakenOut | undefined): SealAsked {
  const all = { animals: undefined, farmFile: true };
  if (!takenOut) return all;
  const { animal, by, why } = takenOut;
  return {
    ...all,
    withdraw: {
      content: { by, why, what: 'taken out' },
      which: ({ sealed, now }: BrokenSeal, seals: FarmSeals) =>
        now === undefined && sealed.first.animal === nameOf(seals, animal),
    },
  };
}

/** The chain's name for an animal by her file, her number or the file she had. */
function nameOf({ animals, missingAnimals }: FarmSeals, animal: string | undefined): string | undefined {
  if (animal === undefined) return undefined;
  const gone = missingAnimals.find(({ files, numbers }) => files.has(animal) || numbers.has(animal));
  // A name nobody has: nothing is withdrawn.
  return gone?.name ?? animals.get(animal)?.name ?? '';
}

/** A sealed record as it is spoken of. */
export function entryInWords({ kind, content, on, animal }: LedgerEntry): string {
  const whose = animal === undefined ? '' : `${animal}: `;
  return kind === 'withdrawn' ? `${whose}seals withdrawn` : `${whose}${recordInWords(kind, content, on)}`;
}

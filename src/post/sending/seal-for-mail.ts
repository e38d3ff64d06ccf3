import { readFarm } from '../../casefile/read-farm.js';
import { sealFarms } from '../../keep/disk/seal-farm.js';
import { findFarm } from '../../keep/find-kept.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { FarmRecord } from '../../record/practice.js';
import { keepingOf } from '../../run/keeping-options.js';
import { NoLetter, type PostRun } from './post-run.js';

/** A farm as it is told of: its records as they lie, each beside its seal. */
export interface FarmToTell {
  readonly farm: FarmRecord;
  readonly seals: FarmSeals;
}

/**
 * Seals what is unsealed on a farm before it is written to, and reads it again, so that the head in the letter stands for
 * all the letter tells. With `--dry-run` nothing is sealed.
 *
 * Error: NoLetter where the ledger cannot be written, is broken, or another program holds the farm; or where a file was
 *        saved with an error meanwhile
 */
export async function sealForMail({ options, effects }: PostRun, slug: string): Promise<FarmToTell> {
  const keeping = keepingOf(options, effects);
  if (!options.dryRun) {
    const [done] = await sealFarms(effects.disk, keeping, [slug]);
    for (const line of done?.told ?? []) effects.warn(`${slug}: ${line}\n`);
    if (done?.why !== undefined)
      throw new NoLetter('not-sealed', `its records could not be sealed before they are told: ${done.why}`);
  }
  const found = findFarm(keeping, slug);
  const reading =
    found.outcome === 'found' ? readFarm(effects.files, found.farm, keeping.today, 'hashed') : undefined;
  if (reading?.record === undefined)
    throw new NoLetter(
      'not-sealed',
      'its files were changed while this ran, and now hold an error; `growdown check` says which',
    );
  return { farm: reading.record, seals: reading.seals() };
}

import { shortHead } from '../../ledger/head-of.js';
import type { FarmRecord } from '../../record/practice.js';
import type { Effects } from '../effects.js';
import type { ArchiveOptions } from './archive-options.js';
import type { FarmArchived } from './archive-farm.js';
import type { ArchiveReading } from './reading-for-archive.js';
import { sealsCounted } from './seals-counted.js';

/** One archive that was written. */
export interface Written extends FarmArchived {
  readonly place: string;
  readonly farm: FarmRecord;
  readonly zip?: string;
}

/** Says what was written, what was left out of it, and what it cannot prove. */
export function sayArchives(
  written: readonly Written[],
  reading: ArchiveReading,
  { json }: ArchiveOptions,
  effects: Effects,
): void {
  for (const { facts } of written)
    for (const { file, why } of facts['left-out'])
      effects.warn(`${facts.farm}/${file}: left out of the archive: ${why}\n`);
  for (const { farm } of written) {
    const { records, sealed } = sealsCounted(reading.sealsOf(farm.slug)!);
    const unsealed = records - sealed;
    if (unsealed > 0)
      effects.warn(
        `${farm.slug}: ${unsealed} ${unsealed === 1 ? 'record is' : 'records are'} not sealed, so the archive proves nothing of when ${unsealed === 1 ? 'it was' : 'they were'} written; growdown seal seals them\n`,
      );
  }
  if (json === true) {
    const archives = written.map(({ place, zip, facts, oxum, pictures }) => ({
      farm: facts.farm,
      folder: place,
      ...(zip === undefined ? {} : { zip }),
      ...oxum,
      animals: facts.animals.length,
      pictures,
      head: facts.head ?? null,
      leftOut: facts['left-out'],
    }));
    const { farmsRefused, problems } = reading;
    effects.print(`${JSON.stringify({ archives, refused: farmsRefused, problems }, null, 2)}\n`);
    return;
  }
  for (const { place, zip, farm, facts, oxum, pictures } of written) {
    effects.print(
      `${place}${zip === undefined ? '' : ` and ${zip}`}  ${farm.farm.farm}: ${counted(facts.animals.length, 'animal')}, ${counted(pictures, 'picture')}, ${counted(oxum.files, 'file')}\n`,
    );
    effects.print(
      facts.head
        ? `  head of the ledger: ${shortHead(facts.head)} (${facts.head.entries} entries)\n`
        : '  nothing of it is sealed\n',
    );
  }
}

function counted(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}

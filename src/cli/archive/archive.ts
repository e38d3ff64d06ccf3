import { join } from 'node:path';
import { bagInFolder } from '../../archive/bag/bag-in-folder.js';
import { bagWriter } from '../../archive/bag/bag-writer.js';
import { zipOfBag, zipRefusal } from '../../archive/zip/zip-of-bag.js';
import { archiveOn } from '../../growth/archive-on.js';
import { headOf, shortHead } from '../../ledger/head-of.js';
import { PrintingTrouble } from '../../pdf/printing-trouble.js';
import { nameOfPeriod, type Period } from '../../record/period.js';
import type { FarmRecord } from '../../record/practice.js';
import { type CommonOptions, folderOf } from '../common-options.js';
import type { Effects } from '../effects.js';
import { type ExitCode, WrongUse } from '../exit-code.js';
import { isPictureThere } from '../is-picture-there.js';
import { printingTroubleInWords } from '../printing-in-words.js';
import { progressOn } from '../progress.js';
import { exitFor, listProblems } from '../read-cases.js';
import { readPicture } from '../read-picture.js';
import { versionOf } from '../version-of.js';
import { witnessesOf } from '../witnesses-of.js';
import { archiveFarm, type FarmArchived } from './archive-farm.js';
import { casesIn } from './in-period.js';
import { madeOfFarm } from './made-of-farm.js';
import { printerIfAny } from './printer-if-any.js';
import { type ArchiveReading, readForArchive } from './reading-for-archive.js';
import { sealsCounted } from './seals-counted.js';

export type ArchiveOptions = CommonOptions & {
  out: string;
  period?: Period;
  zip?: true;
  keepLocation?: true;
  contacts: boolean;
  pdf: boolean;
};

/**
 * Writes one archive a farm: a folder, and a zip of it where that is asked for. A farm with an error gets none.
 *
 * Each is written beside its place under another name and moved there when it is whole; one that stands there already
 * is never written over.
 */
export async function archive(options: ArchiveOptions, effects: Effects): Promise<ExitCode> {
  const today = options.today ?? effects.today();
  const { period, contacts } = options;
  if (period && period.from > today)
    throw new WrongUse(`--period begins on ${period.from}, after today (${today})`);
  const reading = readForArchive(effects.files, options.cases, { farm: options.farm, today, contacts });
  listProblems(
    reading.problems.filter(({ severity }) => severity === 'error'),
    reading.filesRead,
    effects,
  );
  for (const slug of reading.farmsRefused) effects.warn(`${slug}: no archive, because of the errors above\n`);

  const places = reading.farms.map((farm) => placeOf(farm, options, today));
  for (const place of places) refuseStanding(place, options, effects);

  const learned = archiveOn(reading.practice, today);
  const printer = await printerIfAny(options.pdf && reading.farms.length > 0, effects);
  const progress = progressOn(effects);
  const written: Written[] = [];
  try {
    for (const [index, farm] of reading.farms.entries()) {
      progress.show(index + 1, reading.farms.length, farm.farm.farm);
      const place = places[index]!;
      const done = await whole(place, options, effects, (folder) =>
        archiveFarm(bagWriter(effects.bags, folder), {
          ...reading,
          farm,
          today,
          period,
          contacts,
          head: headOf(reading.sealsOf(farm.slug)!.ledger),
          keepLocation: options.keepLocation === true,
          disk: effects.bags,
          version: versionOf(),
          made: madeOfFarm({
            practice: reading.practice,
            farm,
            chosen: casesIn(farm.cases, period, today),
            period,
            today,
            archive: learned,
            isPictureThere: isPictureThere(effects, reading.cases, farm.slug),
            readPicture: readPicture(effects, reading.cases, farm.slug),
            printer,
            seals: reading.sealsOf(farm.slug),
            witnesses: witnessesOf(effects, options.cases, farm.slug).map((one) =>
              contacts ? one : { ...one, to: [] },
            ),
          }),
        }),
      );
      written.push({ place, farm, ...done });
    }
  } finally {
    progress.clear();
    await printer?.close();
  }
  say(written, reading, options, effects);
  return exitFor(reading.problems);
}

interface Written extends FarmArchived {
  readonly place: string;
  readonly farm: FarmRecord;
  readonly zip?: string;
}

function placeOf({ slug }: FarmRecord, { out, period }: ArchiveOptions, today: string): string {
  return join(out, `${slug}-${today}${period ? `-of-${nameOfPeriod(period)}` : ''}`);
}

function refuseStanding(place: string, { zip }: ArchiveOptions, effects: Effects): void {
  const standing = [place, ...(zip ? [`${place}.zip`] : [])].find(
    (one) => effects.bags.look(folderOf(effects, one)) !== undefined,
  );
  if (standing !== undefined)
    throw new WrongUse(
      `${standing} stands already, and an archive is never written over: move it away, or name another folder with --out. Nothing was written`,
    );
}

/** Writes an archive under a name of its own and moves it to its place when it is whole. */
async function whole(
  place: string,
  { zip }: ArchiveOptions,
  effects: Effects,
  write: (folder: string) => Promise<FarmArchived>,
): Promise<FarmArchived & { readonly zip?: string }> {
  const { bags } = effects;
  const at = folderOf(effects, place);
  const begun = `${at}.${bags.token()}.tmp`;
  try {
    const done = await write(begun);
    if (zip) {
      const { files } = bagInFolder(bags, begun);
      const refused = zipRefusal(files);
      if (refused !== undefined)
        throw new WrongUse(`${place}: no zip can be made of it, ${refused}; leave out --zip`);
      const file = bags.create(`${begun}.zip`);
      try {
        for await (const piece of zipOfBag(files, at.split(/[/\\]/).at(-1)!)) file.write(piece);
      } finally {
        file.close();
      }
      bags.rename(`${begun}.zip`, `${at}.zip`);
    }
    bags.rename(begun, at);
    return zip ? { ...done, zip: `${place}.zip` } : done;
  } catch (error) {
    bags.removeAll(begun);
    bags.removeAll(`${begun}.zip`);
    if (error instanceof PrintingTrouble)
      throw new WrongUse(`${printingTroubleInWords(error)}\nWith --no-pdf an archive is made without it.`);
    const { code, path = place } = error as NodeJS.ErrnoException;
    if (code === undefined || error instanceof WrongUse) throw error;
    throw new WrongUse(
      `${place} could not be written, and nothing was kept of it: the system refuses ${path} (${code}). Look whether it is open in another program or not yours, and whether there is room; or name another folder with --out`,
    );
  }
}

function say(
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
      `${place}${zip === undefined ? '' : ` and ${zip}`}  ${farm.farm.farm}: ${facts.animals.length} animals, ${pictures} pictures, ${oxum.files} files\n`,
    );
    effects.print(
      facts.head
        ? `  head of the ledger: ${shortHead(facts.head)} (${facts.head.entries} entries)\n`
        : '  nothing of it is sealed\n',
    );
  }
}

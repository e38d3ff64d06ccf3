import { bagWriter } from '../../archive/bag/bag-writer.js';
import { archiveOn } from '../../growth/archive-on.js';
import { headOf } from '../../ledger/head-of.js';
import type { Effects } from '../effects.js';
import { type ExitCode, farmByFarm, worse, WrongUse } from '../exit-code.js';
import { isPictureThere } from '../is-picture-there.js';
import { progressOn } from '../progress.js';
import { exitFor, listErrors, sayUnfinished } from '../read-cases.js';
import { readPicture } from '../read-picture.js';
import { versionOf } from '../version-of.js';
import { witnessesOf } from '../witnesses-of.js';
import { archiveFarm } from './archive-farm.js';
import { sayArchives, type Written } from './archive-in-words.js';
import type { ArchiveOptions } from './archive-options.js';
import { placeOf, refuseAmongCases, writtenWhole } from './archive-place.js';
import { casesIn } from './in-period.js';
import { madeOfFarm } from './made-of-farm.js';
import { printerIfAny } from './printer-if-any.js';
import { readForArchive } from './reading-for-archive.js';

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
  refuseAmongCases(options, effects);
  const reading = readForArchive(effects.files, options.cases, { farm: options.farm, today, contacts });
  listErrors({ ...reading, problems: sayUnfinished(reading.problems, {}, effects) }, effects);
  for (const slug of reading.farmsRefused) effects.warn(`${slug}: no archive, because of the errors above\n`);

  const learned = archiveOn(reading.practice, today);
  const printer = await printerIfAny(options.pdf && reading.farms.length > 0, effects);
  const progress = progressOn(effects);
  const written: Written[] = [];
  let ended: ExitCode;
  try {
    ended = await farmByFarm(reading.farms, effects, async (farm, index) => {
      progress.show(index + 1, reading.farms.length, farm.farm.farm);
      const place = placeOf(farm, options, today);
      const done = await writtenWhole(place, options, effects, (folder) =>
        archiveFarm(bagWriter(effects.bags, folder), {
          ...reading,
          farm,
          today,
          period,
          contacts,
          head: headOf(reading.sealsOf(farm.slug)!.ledger),
          keepLocation: options.keepLocation === true,
          clips: options.clips === true,
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
    });
  } finally {
    progress.clear();
    await printer?.close();
  }
  sayArchives(written, reading, options, effects);
  return worse(ended, exitFor(reading.problems));
}

import { bagWriter } from '../bag/bag-writer.js';
import { archiveOn } from '../herd/archive-on.js';
import { headOf, shortHead } from '../ledger/head-of.js';
import { type Effects, progressOn } from '../run/effects.js';
import { type ExitCode, farmByFarm, worse, WrongUse } from '../run/exit-code.js';
import { isPictureThere, readPicture } from '../run/read-picture.js';
import { exitFor, listErrors, sayUnfinished } from '../run/read-cases.js';
import { versionOf } from './overview.js';
import { witnessesOf } from '../post/sending/post-run.js';
import { archiveFarm, type FarmArchived } from '../archive/archive-farm.js';
import { type ArchiveOptions, casesIn } from '../archive/archive-facts.js';
import { placeOf, refuseAmongCases, writtenWhole } from '../archive/archive-place.js';
import { madeOfFarm } from '../archive/made-of-farm.js';
import { openPrinter, type Printer, PrintingTrouble } from '../pdf/open-printer.js';
import type { FarmRecord } from '../record/practice.js';
import { sealsCounted } from '../archive/check-records.js';
import { type FarmsChosen, chooseFarm } from '../casefile/choose-farm.js';
import type { CaseFiles } from '../casefile/source-text.js';
import { openCasesFolder } from '../casefile/open-cases-folder.js';
import { readPractice } from '../casefile/read-practice.js';
import { asItWas } from '../casefile/unfinished.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { withoutContacts, withValues } from '../archive/without-contacts.js';
import { asIf } from '../casefile/as-if.js';
import { animal } from '../record/animal.js';
import { archiveText } from '../reference/study-results.js';
import { given } from '../record/given.js';

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

/** A browser that prints, where one is wanted and there is one; where not, that is said, and the archive is made without PDFs. */
async function printerIfAny(wanted: boolean, effects: Effects): Promise<Printer | undefined> {
  if (!wanted) return undefined;
  const found = effects.browser();
  try {
    if (!('missing' in found)) return await openPrinter({ browser: found.path });
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
  }
  effects.warn(
    'no browser that prints was found, so the archives hold no PDF; the books are in them as pages\n',
  );
  return undefined;
}

/** One archive that was written. */
interface Written extends FarmArchived {
  readonly place: string;
  readonly farm: FarmRecord;
  readonly zip?: string;
}

/** Says what was written, what was left out of it, and what it cannot prove. */
function sayArchives(
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
      ...given({ zip }),
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

/** Records, and the very bytes they were read from: a file saved while the archive is written does not come between. */
interface ArchiveReading extends FarmsChosen {
  readonly files: CaseFiles;
  /** The cases folder as `files` takes it. */
  readonly cases: string;
}

/**
 * Reads all case files, remembers them as they were read, and hashes the sealed pictures of the farms asked for.
 *
 * They are read twice: first to know whose pictures to hash and which files to leave contacts and former farms out of.
 */
function readForArchive(
  files: CaseFiles,
  typed: string,
  { farm, today, contacts }: { farm: string | undefined; today: CalendarDay; contacts: boolean },
): ArchiveReading {
  const remembered = remembering(asItWas(files, typed).files);
  const opened = openCasesFolder(files, typed);
  const cases = opened.outcome === 'open' ? opened.folder : typed;
  const { farms } = chooseFarm(readPractice(remembered, typed, { today }), farm);
  const slugs = farms.map(({ slug }) => slug);
  const own = withoutFormerFarms(remembered, cases, farms);
  const kept = contacts ? own : withoutContacts(own, cases, slugs);
  const pictures = new Set(farms.flatMap((one) => one.cases.map(({ slug }) => slug)));
  const reading = chooseFarm(readPractice(kept, typed, { today, pictures }), farm);
  return { ...reading, files: kept, cases };
}

/** Case files and ledgers are small, and each is read from the disk once. Pictures are not remembered. */
function remembering(files: CaseFiles): CaseFiles {
  const seen = new Map<string, Uint8Array>();
  return {
    ...files,
    read: (path) => {
      if (!/\.(?:md|jsonl)$/.test(path)) return files.read(path);
      const bytes = seen.get(path) ?? files.read(path);
      seen.set(path, bytes);
      return bytes;
    },
  };
}

/** Case files as they lie, but for the names of other farms that animals came from: one farm's archive tells of no other. */
function withoutFormerFarms(files: CaseFiles, cases: string, farms: readonly FarmRecord[]): CaseFiles {
  const value = archiveText['former-farm'];
  return asIf(
    files,
    farms.flatMap(({ slug, cases: records }) =>
      records.flatMap((record) => {
        const others = (record.animal.earlier ?? []).flatMap((one, index) =>
          one.farm === undefined || one.farm === slug ? [] : [{ at: ['earlier', index, 'farm'], value }],
        );
        return withValues(files, `${cases}/${slug}/${record.slug}.md`, others, animal);
      }),
    ),
  );
}

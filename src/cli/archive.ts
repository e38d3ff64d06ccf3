import { bagWriter } from '../bag/bag-writer.js';
import { headOf, shortHead } from '../ledger/read-ledger.js';
import { mailedHeadsOf } from '../post/sending/post-run.js';
import { terminal } from '../problem/message.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, WrongUse, versionOf } from '../run/exit-code.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';
import { counted, isPictureThere, readPicture, sayUnfinished } from '../run/read-cases.js';
import { archiveFarm, type FarmArchived } from '../archive/archive-farm.js';
import { type ArchiveOptions, casesIn } from '../archive/archive-facts.js';
import { archivePlaceOf, refuseAmongCases, writtenWhole } from '../archive/archive-place.js';
import { madeOfFarm } from '../archive/made-of-farm.js';
import { openPrinter, type Printer, PrintingTrouble } from '../pdf/open-printer.js';
import type { FarmRecord } from '../record/practice.js';
import { sealsCounted } from '../archive/check-records.js';
import { chooseFarm } from '../casefile/choose-farm.js';
import type { CaseFiles } from '../casefile/source-text.js';
import { openCasesFolder } from '../casefile/find-farms.js';
import { readPractice } from '../casefile/read-practice.js';
import { asItWas } from '../casefile/unfinished.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { withoutContacts, withValue } from '../archive/without-contacts.js';
import { asIf } from '../casefile/as-if.js';
import { animal } from '../record/animal.js';
import { archiveText } from '../reference/study-results.js';
import { given } from '../record/given.js';

/**
 * Writes one archive a farm: a folder, and a zip of it where that is asked for. A farm with an error gets none.
 *
 * Each is written beside its place under another name and moved there when it is whole; one that is there already
 * is never written over.
 */
export async function archive(options: ArchiveOptions, effects: Effects): Promise<ExitCode> {
  const today = options.today ?? effects.today();
  const { period, contacts } = options;
  if (period && period.from > today)
    throw new WrongUse(terminal('archive.period-to-come', { from: period.from, today }));
  refuseAmongCases(options, effects);
  const read = readForArchive(effects.files, options.cases, { farm: options.farm, today, contacts });
  sayUnfinished(read.problems, {}, effects);
  const run = farmRun(options, effects, { refused: 'archive.refused' }, { ...read, today });
  run.tell();
  const printer = await printerIfAny(options.pdf && run.farms.length > 0, run, effects);
  try {
    const written = await run.each(async (farm): Promise<Written> => {
      const place = archivePlaceOf(farm, options, today);
      const seals = run.sealsOf(farm.slug)!;
      const done = await writtenWhole(place, options, effects, (folder) =>
        archiveFarm(bagWriter(effects.bags, folder), {
          ...read,
          farm,
          today,
          period,
          contacts,
          head: headOf(seals.ledger),
          keepLocation: options.keepLocation === true,
          clips: options.clips === true,
          disk: effects.bags,
          version: versionOf(),
          made: madeOfFarm({
            practice: read.practice,
            farm,
            chosen: casesIn(farm.cases, period, today),
            period,
            today,
            pooled: run.pooled,
            isPictureThere: isPictureThere(effects, read.cases, farm.slug),
            readPicture: readPicture(effects, read.cases, farm.slug),
            printer,
            seals,
            witnesses: mailedHeadsOf(effects, options.cases, farm.slug).map((one) =>
              contacts ? one : { ...one, to: [] },
            ),
          }),
        }),
      );
      return { place, farm, ...done };
    });
    for (const one of written) sayArchive(one, run);
    const { farmsRefused: refused, problems } = run;
    return run.end({ archives: written.map(asJson), refused, problems });
  } finally {
    await printer?.close();
  }
}

/** A browser that prints, where one is wanted and there is one; where not, that is said, and the archive is made without PDFs. */
async function printerIfAny(wanted: boolean, run: FarmRun, effects: Effects): Promise<Printer | undefined> {
  if (!wanted) return undefined;
  const found = effects.browser();
  try {
    if (!('missing' in found)) return await openPrinter({ browser: found.path });
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
  }
  run.warn(terminal('archive.no-browser'));
  return undefined;
}

interface Written extends FarmArchived {
  readonly place: string;
  readonly farm: FarmRecord;
  readonly zip?: string;
}

function sayArchive({ place, zip, farm, facts, oxum, pictures }: Written, run: FarmRun): void {
  for (const { file, why } of facts['left-out'])
    run.warn(terminal('archive.left-out', { farm: facts.farm, file, why }));
  const { records, sealed } = sealsCounted(run.sealsOf(farm.slug)!);
  if (records > sealed) run.warn(terminal('archive.unsealed', { farm: farm.slug, count: records - sealed }));
  const values = {
    place,
    farm: farm.farm.farm,
    animals: counted(facts.animals.length, 'animal'),
    pictures: counted(pictures, 'picture'),
    files: counted(oxum.files, 'file'),
  };
  run.say(
    zip === undefined
      ? terminal('archive.written', values)
      : terminal('archive.written-zip', { ...values, zip }),
  );
  run.say(
    facts.head
      ? terminal('archive.head', { head: shortHead(facts.head), entries: facts.head.entries })
      : terminal('archive.no-head'),
  );
}

function asJson({ place, zip, facts, oxum, pictures }: Written) {
  return {
    farm: facts.farm,
    folder: place,
    ...given({ zip }),
    ...oxum,
    animals: facts.animals.length,
    pictures,
    head: facts.head ?? null,
    leftOut: facts['left-out'],
  };
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
) {
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

/** Case files as they lie, but for the names of other farms that animals came from: one farm's archive does not mention another. */
function withoutFormerFarms(files: CaseFiles, cases: string, farms: readonly FarmRecord[]): CaseFiles {
  const value = archiveText['former-farm'];
  return asIf(
    files,
    farms.flatMap(({ slug, cases: records }) =>
      records.flatMap((record) => {
        const others = (record.animal.earlier ?? []).flatMap((one, index) =>
          one.farm === undefined || one.farm === slug ? [] : [['earlier', index, 'farm']],
        );
        const path = `${cases}/${slug}/${record.slug}.md`;
        return withValue(files, path, value, others, ['animal', animal]);
      }),
    ),
  );
}

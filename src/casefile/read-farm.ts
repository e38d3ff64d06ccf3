import type { Problem } from '../problem/problem.js';
import { emptyLedger, type Ledger } from '../ledger/read-ledger.js';
import { type FarmSeals, sealsOfFarm } from '../ledger/seals-of-farm.js';
import { animal, type Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { farm as farmSchema, type Farm } from '../record/farm.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseFiles } from './source-text.js';
import type { FarmCheckContext } from './check/check-context.js';
import { checkAnimal } from './check/check-animal.js';
import { checkBetweenFiles } from './check/check-between-files.js';
import { checkFarm } from './check/check-farm.js';
import { checkAnimalSeals, checkFarmSeals } from './check/check-seals.js';
import {
  animalMissing,
  ledgerProblem,
  ledgerUnreadable,
  ledgerFile,
  readLedgerFile,
} from './read-ledger-file.js';
import type { FoundFarm } from './find-farms.js';
import { lookAtPicture, type PictureCare, pictureBytes } from './look-at-picture.js';
import { readRecordFile, type RecordFile } from './read-record-file.js';

export interface FarmReading {
  /** Undefined where any of its files has an error. */
  readonly record: FarmRecord | undefined;
  readonly problems: readonly Problem[];
  readonly filesRead: number;
  /** Its records beside their seals, worked out when first asked for. */
  readonly seals: () => FarmSeals;
  /** The same beside another ledger than the one that lies there. */
  readonly sealsWith: (ledger: Ledger) => FarmSeals;
}

type Read<T> = Extract<RecordFile<T>, { outcome: 'record' }>;

/**
 * Reads and checks one farm's folder. An error in `farm.md` does not keep the animals from being checked.
 *
 * `pictures`: whether those sealed are held against their seals by size alone, or read and hashed.
 */
export function readFarm(
  files: CaseFiles,
  found: FoundFarm,
  today: CalendarDay,
  pictures: PictureCare = 'sized',
): FarmReading {
  const problems: Problem[] = [...found.problems];
  const context: FarmCheckContext = {
    today,
    farmSlug: found.slug,
    picture: (path) => lookAtPicture(files, found.entry.path, path),
  };
  const farm = readFarmFile(files, found, context, problems);
  const animals = new Map<string, Read<Animal>>();
  for (const { slug, entry } of found.animals) {
    const file = readRecordFile(files, entry, animal, 'animal');
    if (file.outcome === 'refused') {
      for (const each of file.problems) problems.push(each);
      continue;
    }
    animals.set(slug, file);
    const known: Farm | undefined = farm?.record;
    const findings = checkAnimal(file.record, { ...context, farm: known, animalSlug: slug });
    for (const each of findings.map(file.problemOf)) problems.push(each);
  }
  const seen = [...animals].map(([slug, file]) => ({ slug, file: file.source.file, animal: file.record }));
  for (const finding of checkBetweenFiles(seen, context)) {
    const problem = animals.get(finding.animalSlug)?.problemOf(finding);
    if (problem) problems.push(problem);
  }
  const seals = checkSeals(files, found, { farm, animals }, problems, pictures);
  const sound = farm && problems.every(({ severity }) => severity !== 'error');
  const filesRead = found.animals.length + (found.farmFile ? 1 : 0);
  return { record: sound ? farmRecord(found.slug, farm, animals) : undefined, problems, filesRead, ...seals };
}

/** A farm that has no ledger is kept as it always was, and costs nothing here. */
function checkSeals(
  files: CaseFiles,
  found: FoundFarm,
  read: { readonly farm: Read<Farm> | undefined; readonly animals: ReadonlyMap<string, Read<Animal>> },
  problems: Problem[],
  pictures: PictureCare,
): Pick<FarmReading, 'seals' | 'sealsWith'> {
  const file = readLedgerFile(files, found.entry);
  const shown = `${found.entry.shown}/${ledgerFile}`;
  if (file.outcome === 'unreadable') problems.push(ledgerUnreadable(shown, file.reason));
  const ledger = file.outcome === 'ledger' ? file.ledger : emptyLedger;
  const now = {
    farm: read.farm?.record,
    animals: [...read.animals].map(([slug, { record }]) => ({ slug, animal: record })),
  };
  const picture = pictureBytes(files, found.entry.path, pictures);
  const sealsWith = (other: Ledger): FarmSeals => sealsOfFarm(now, other, picture);
  let made: FarmSeals | undefined;
  const seals = (): FarmSeals => (made ??= sealsWith(ledger));
  for (const each of ledger.faults.map((fault) => ledgerProblem(fault, shown))) problems.push(each);
  if (ledger.entries.length === 0 || ledger.faults.length > 0) return { seals, sealsWith };
  const { animals, missingAnimals } = seals();
  if (read.farm)
    for (const each of checkFarmSeals(seals(), found.slug).map(read.farm.problemOf)) problems.push(each);
  for (const [slug, one] of animals) {
    const problemOf = read.animals.get(slug)?.problemOf;
    if (problemOf)
      for (const each of checkAnimalSeals(one, `${found.slug}/${slug}`).map(problemOf)) problems.push(each);
  }
  // Whose file does not read is not missing; which of them that is cannot be told then.
  if (read.animals.size === found.animals.length)
    for (const each of missingAnimals.map((one) => animalMissing(one, found.entry.shown, found.slug)))
      problems.push(each);
  return { seals, sealsWith };
}

function readFarmFile(
  files: CaseFiles,
  found: FoundFarm,
  context: FarmCheckContext,
  problems: Problem[],
): Read<Farm> | undefined {
  if (!found.farmFile) return undefined;
  const file = readRecordFile(files, found.farmFile, farmSchema, 'farm');
  if (file.outcome === 'refused') {
    for (const each of file.problems) problems.push(each);
    return undefined;
  }
  for (const each of checkFarm(file.record, context).map(file.problemOf)) problems.push(each);
  return file;
}

function farmRecord(slug: string, farm: Read<Farm>, animals: ReadonlyMap<string, Read<Animal>>): FarmRecord {
  return {
    slug,
    farm: farm.record,
    narrative: farm.narrative,
    source: farm.source,
    cases: [...animals].map(([animalSlug, { record, narrative, source }]) => ({
      slug: animalSlug,
      animal: record,
      narrative,
      source,
    })),
  };
}

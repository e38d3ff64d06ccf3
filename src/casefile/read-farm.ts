import type { Finding, Problem } from '../problem/problem.js';
import { emptyLedger, type Ledger } from '../ledger/read-ledger.js';
import { type FarmSeals, sealsOfFarm } from '../ledger/seals-of-farm.js';
import { animal, type Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { farm as farmSchema, type Farm } from '../record/farm.js';
import type { FarmRecord } from '../record/practice.js';
import { bareMark } from '../record/same-animal.js';
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
  /** What is asked of a farm beside the others; undefined as `record` is. */
  readonly known?:
    { readonly farm: string; readonly tags: readonly (readonly [slug: string, tag: string])[] } | undefined;
  /** The hash of all that it was read from, where it is remembered. */
  readonly key?: string;
  /** Its records beside their seals, worked out when first asked for. */
  readonly seals: () => FarmSeals;
  /** The same beside another ledger than the one that lies there. */
  readonly sealsWith: (ledger: Ledger) => FarmSeals;
}

type Read<T> = Extract<RecordFile<T>, { outcome: 'record' }>;

/** The files of a farm that read. */
interface ReadFiles {
  readonly farm: Read<Farm> | undefined;
  readonly animals: ReadonlyMap<string, Read<Animal>>;
}

/**
 * Reads and checks one farm's folder. An error in `farm.md` does not keep the animals from being checked.
 *
 * `pictures`: whether those sealed are checked against their seals by size alone, or read and hashed. `readFile`: how one
 * file is read.
 */
export function readFarm(
  files: CaseFiles,
  found: FoundFarm,
  today: CalendarDay,
  pictures: PictureCare = 'sized',
  readFile = readRecordFile,
): FarmReading {
  const { slug: farmSlug, entry, farmFile } = found;
  const picture: FarmCheckContext['picture'] = (path) => lookAtPicture(files, entry.path, path);
  const context = { today, farmSlug, picture };
  const problems: Problem[] = [...found.problems];
  const told = (all: Iterable<Finding>, { problemOf }: Pick<Read<unknown>, 'problemOf'>): void => {
    for (const one of all) problems.push(problemOf(one));
  };
  const taken = <T>(file: RecordFile<T>): Read<T> | undefined => {
    const isRead = file.outcome === 'record';
    for (const one of isRead ? file.remarks : file.problems) problems.push(one);
    return isRead ? file : undefined;
  };
  const farm = farmFile && taken(readFile(files, farmFile, farmSchema, 'farm'));
  if (farm) told(checkFarm(farm.record, context), farm);
  const animals = new Map<string, Read<Animal>>();
  for (const { slug, entry: at } of found.animals) {
    const file = taken(readFile(files, at, animal, 'animal'));
    if (!file) continue;
    animals.set(slug, file);
    told(checkAnimal(file.record, { ...context, farm: farm?.record, animalSlug: slug }), file);
  }
  const seen = [...animals].map(([slug, file]) => ({ slug, file: file.source.file, animal: file.record }));
  for (const finding of checkBetweenFiles(seen)) told([finding], animals.get(finding.animalSlug)!);
  const { wrong, ...seals } = checkSeals(files, found, { farm, animals }, pictures);
  for (const one of wrong()) problems.push(one);
  const sound = farm && problems.every(({ severity }) => severity !== 'error');
  const filesRead = found.animals.length + (farmFile ? 1 : 0);
  const record = sound ? farmRecord(farmSlug, farm, animals) : undefined;
  const tags = record?.cases.flatMap(({ slug, animal: one }) =>
    openTag(one).map((tag) => [slug, tag] as const),
  );
  return { record, problems, filesRead, known: tags && { farm: farm!.record.farm, tags }, ...seals };
}

function openTag({ tag, episodes }: Animal): string[] {
  return tag === undefined || episodes?.at(-1)?.ended !== undefined ? [] : [bareMark(tag)];
}

/** A farm that has no ledger is kept as it always was, and costs nothing here. */
function checkSeals(
  files: CaseFiles,
  { slug: farmSlug, entry, animals: all }: FoundFarm,
  { farm, animals }: ReadFiles,
  pictures: PictureCare,
): Pick<FarmReading, 'seals' | 'sealsWith'> & { readonly wrong: () => Generator<Problem> } {
  const file = readLedgerFile(files, entry);
  const ledger = file.outcome === 'ledger' ? file.ledger : emptyLedger;
  const now = {
    farm: farm?.record,
    animals: [...animals].map(([slug, { record }]) => ({ slug, animal: record })),
  };
  const picture = pictureBytes(files, entry.path, pictures);
  const sealsWith = (other: Ledger): FarmSeals => sealsOfFarm(now, other, picture);
  let made: FarmSeals | undefined;
  const seals = (): FarmSeals => (made ??= sealsWith(ledger));
  function* wrong(): Generator<Problem> {
    const shown = `${entry.shown}/${ledgerFile}`;
    if (file.outcome === 'unreadable') yield ledgerUnreadable(shown, file.reason);
    for (const fault of ledger.faults) yield ledgerProblem(fault, shown);
    if (ledger.entries.length === 0 || ledger.faults.length > 0) return;
    if (farm) yield* checkFarmSeals(seals(), farmSlug).map(farm.problemOf);
    for (const [slug, one] of seals().animals)
      yield* checkAnimalSeals(one, `${farmSlug}/${slug}`).map(animals.get(slug)!.problemOf);
    // Whose file does not read is not missing; which of them that is cannot be determined then.
    if (animals.size === all.length)
      for (const one of seals().missingAnimals) yield animalMissing(one, entry.shown, farmSlug);
  }
  return { seals, sealsWith, wrong };
}

function farmRecord(slug: string, farm: Read<Farm>, animals: ReadFiles['animals']): FarmRecord {
  const { record, narrative, source } = farm;
  const cases = [...animals].map(([animalSlug, one]) => ({
    slug: animalSlug,
    animal: one.record,
    narrative: one.narrative,
    source: one.source,
  }));
  return { slug, farm: record, narrative, source, cases };
}

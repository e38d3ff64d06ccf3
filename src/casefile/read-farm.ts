import type { Problem } from '../problem/problem.js';
import { animal } from '../record/animal.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { farm as farmSchema } from '../record/farm.js';
import type { Farm } from '../record/farm.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseFiles } from './case-files.js';
import type { FarmCheckContext } from './check-context.js';
import { checkAnimal } from './check/check-animal.js';
import { checkBetweenFiles } from './check/check-between-files.js';
import { checkFarm } from './check/check-farm.js';
import type { FoundFarm } from './find-case-files.js';
import { lookAtPicture } from './look-at-picture.js';
import { readRecordFile } from './read-record-file.js';
import type { RecordFile } from './read-record-file.js';

export interface FarmReading {
  /** Undefined where any of its files has an error. */
  readonly record: FarmRecord | undefined;
  readonly problems: readonly Problem[];
  readonly filesRead: number;
}

type Read<T> = Extract<RecordFile<T>, { outcome: 'record' }>;

/** Reads and checks one farm's folder. An error in `farm.md` does not keep the animals from being checked. */
export function readFarm(files: CaseFiles, found: FoundFarm, today: CalendarDay): FarmReading {
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
      problems.push(...file.problems);
      continue;
    }
    animals.set(slug, file);
    const known: Farm | undefined = farm?.record;
    const findings = checkAnimal(file.record, { ...context, farm: known, animalSlug: slug });
    problems.push(...findings.map(file.problemOf));
  }
  const seen = [...animals].map(([slug, file]) => ({ slug, file: file.source.file, animal: file.record }));
  for (const finding of checkBetweenFiles(seen, context)) {
    const problem = animals.get(finding.animalSlug)?.problemOf(finding);
    if (problem) problems.push(problem);
  }
  const sound = farm && problems.every(({ severity }) => severity !== 'error');
  const filesRead = found.animals.length + (found.farmFile ? 1 : 0);
  return { record: sound ? farmRecord(found.slug, farm, animals) : undefined, problems, filesRead };
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
    problems.push(...file.problems);
    return undefined;
  }
  problems.push(...checkFarm(file.record, context).map(file.problemOf));
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

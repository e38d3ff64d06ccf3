import type { Problem, RecordPath } from '../../problem/problem.js';
import type { CaseRecord, FarmRecord, RecordSource } from '../../record/practice.js';
import { bareMark } from '../../record/bare-mark.js';
import { earlierWithTheSame } from './earlier-with-the-same.js';
import { warn } from './finding-at.js';

/**
 * What looks wrong between farms: one name on two of them, one cow in trouble on two of them.
 *
 * Warnings only: two farms may bear one name, and a cow that has moved may be written up on either side first.
 */
export function checkBetweenFarms(farms: readonly FarmRecord[]): Problem[] {
  const namesakes = earlierWithTheSame(farms, ({ farm }) => [farm.farm.trim().toLowerCase()]);
  const records = farms.flatMap((farm) => farm.cases.map((record) => ({ record, farm })));
  const sameTags = earlierWithTheSame(records, ({ record }) => openTag(record));
  return [
    ...farms.flatMap((farm, i) => namesakes[i]!.map((earlier) => sameName(earlier, farm))),
    ...records.flatMap(({ record, farm }, i) =>
      sameTags[i]!.filter((other) => other.farm !== farm).map((other) => sameTag(other.record, record)),
    ),
  ];
}

function sameName(earlier: FarmRecord, { farm, source }: FarmRecord): Problem {
  return problemAt(
    source,
    'farm-name-twice',
    ['farm'],
    `the farm is called ${farm.farm}, and so is the one in ${earlier.source.file}`,
    'add what tells them apart, such as the village; if it is one farm, keep one folder',
  );
}

function sameTag(earlier: CaseRecord, { animal, source }: CaseRecord): Problem {
  return problemAt(
    source,
    'tag-on-two-farms',
    ['tag'],
    `tag ${animal.tag} has an open episode here and in ${earlier.source.file}, expected on one farm at a time`,
    'where she has left, end her episode with `result: moved` or `sold`; where she is now, write `earlier`',
  );
}

function openTag({ animal }: CaseRecord): string[] {
  if (animal.tag === undefined || animal.episodes?.at(-1)?.ended !== undefined) return [];
  return [bareMark(animal.tag)];
}

function problemAt(
  source: RecordSource,
  id: string,
  path: RecordPath,
  message: string,
  mend: string,
): Problem {
  const { at: _, path: __, ...finding } = warn(id, path, message, mend);
  return { ...finding, file: source.file, place: source.placeOf(path) };
}

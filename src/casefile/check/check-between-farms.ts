import type { Problem, RecordPath } from '../../problem/problem.js';
import type { CaseRecord, FarmRecord, RecordSource } from '../../record/practice.js';
import { bareMark } from './bare-mark.js';
import { warn } from './finding-at.js';

/**
 * What looks wrong between farms: one name on two of them, one cow in trouble on two of them.
 *
 * Warnings only: two farms may bear one name, and a cow that has moved may be written up on either side first.
 */
export function checkBetweenFarms(farms: readonly FarmRecord[]): Problem[] {
  return farms.flatMap((farm, i) =>
    farms.slice(0, i).flatMap((earlier) => [...sameName(earlier, farm), ...sameTag(earlier, farm)]),
  );
}

function sameName(earlier: FarmRecord, { farm, source }: FarmRecord): Problem[] {
  if (earlier.farm.farm.trim().toLowerCase() !== farm.farm.trim().toLowerCase()) return [];
  return [
    problemAt(
      source,
      'farm-name-twice',
      ['farm'],
      `the farm is called ${farm.farm}, and so is the one in ${earlier.source.file}`,
      'add what tells them apart, such as the village; if it is one farm, keep one folder',
    ),
  ];
}

function sameTag(earlier: FarmRecord, { cases }: FarmRecord): Problem[] {
  const there = new Map(
    earlier.cases.flatMap((record) => openTag(record).map((tag) => [tag, record] as const)),
  );
  return cases.flatMap((record) =>
    openTag(record).flatMap((tag) => {
      const other = there.get(tag)?.source.file;
      if (other === undefined) return [];
      return [
        problemAt(
          record.source,
          'tag-on-two-farms',
          ['tag'],
          `tag ${record.animal.tag} has an open episode here and in ${other}, expected on one farm at a time`,
          'where she has left, end her episode with `result: moved` or `sold`; where she is now, write `earlier`',
        ),
      ];
    }),
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

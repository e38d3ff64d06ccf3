import type { Farm } from '../../record/farm.js';
import type { AnimalFile } from '../animal-file.js';
import type { Finding } from '../finding.js';
import { warn } from './finding-at.js';

/** A farm as the check between farms sees it. */
export interface FarmFolder {
  readonly slug: string;
  /** Its `farm.md`, as the user would type it. */
  readonly file: string;
  readonly farm: Farm;
  readonly animals: readonly AnimalFile[];
}

/** A finding of a check that saw several farms, with the file it belongs to. */
export interface BetweenFarmsFinding extends Finding {
  readonly file: string;
}

/** What looks wrong between farms: one name on two of them, one cow in trouble on two of them. Warnings only. */
export function checkBetweenFarms(farms: readonly FarmFolder[]): BetweenFarmsFinding[] {
  return farms.flatMap((farm, i) =>
    farms.slice(0, i).flatMap((earlier) => [...sameName(earlier, farm), ...sameTag(earlier, farm)]),
  );
}

function sameName(earlier: FarmFolder, { farm, file }: FarmFolder): BetweenFarmsFinding[] {
  if (earlier.farm.farm.trim().toLowerCase() !== farm.farm.trim().toLowerCase()) return [];
  const finding = warn(
    'farm-name-twice',
    ['farm'],
    `the farm is called ${farm.farm}, and so is the one in ${earlier.file}`,
    'add what tells them apart, such as the village; if it is one farm, keep one folder',
  );
  return [{ ...finding, file }];
}

function sameTag(earlier: FarmFolder, { animals }: FarmFolder): BetweenFarmsFinding[] {
  const there = new Map(earlier.animals.flatMap((file) => openTag(file).map((tag) => [tag, file] as const)));
  return animals.flatMap((file) =>
    openTag(file).flatMap((tag) => {
      const other = there.get(tag);
      if (!other) return [];
      const finding = warn(
        'tag-on-two-farms',
        ['tag'],
        `tag ${file.animal.tag} has an open episode here and in ${other.file}, expected on one farm at a time`,
        `if she moved, end her episode in ${other.file} with \`result: moved\` and write \`earlier\` here`,
      );
      return [{ ...finding, file: file.file }];
    }),
  );
}

function openTag({ animal }: AnimalFile): string[] {
  if (animal.tag === undefined || animal.episodes?.at(-1)?.ended !== undefined) return [];
  return [animal.tag.replaceAll(/[\s-]/g, '').toUpperCase()];
}

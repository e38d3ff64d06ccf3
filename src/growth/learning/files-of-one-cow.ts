import type { Animal } from '../../record/animal.js';
import type { CaseRecord, FarmRecord } from '../../record/practice.js';

/** A case file and the farm it lies in. */
export interface FileOnFarm {
  readonly farm: FarmRecord;
  readonly record: CaseRecord;
}

/**
 * Puts the files of one cow together: she may have one on each farm she stood on.
 *
 * Why this way: two files of one cow are not two cows. They are hers where they bear the same official
 * tag or electronic number, or where one says under `earlier` which number on which farm she was. An earlier
 * number that fits several files, or one with another tag, settles nothing: those stay apart.
 *
 * Shape:   all files → groups, each of one cow, sorted by farm and file whatever order they came in
 * Checked: tests/growth/learning.test.ts
 */
export function filesOfOneCow(farms: readonly FarmRecord[]): readonly (readonly FileOnFarm[])[] {
  const files = farms
    .flatMap((farm) => farm.cases.map((record) => ({ farm, record })))
    .sort((a, b) => compare(a.farm.slug, b.farm.slug) || compare(a.record.slug, b.record.slug));
  const first = files.map((_, index) => index);
  const byIdentity = new Map<string, number>();
  const byNumber = new Map<string, number[]>();
  for (const [index, { farm, record }] of files.entries()) {
    for (const identity of identitiesOf(record.animal)) {
      join(first, index, byIdentity.get(identity) ?? index);
      byIdentity.set(identity, index);
    }
    const key = `${farm.slug} ${record.animal.animal}`;
    byNumber.set(key, [...(byNumber.get(key) ?? []), index]);
  }
  for (const [index, { farm, record }] of files.entries()) {
    for (const { animal: number = record.animal.animal, farm: on = farm.slug } of record.animal.earlier ??
      []) {
      const others = (byNumber.get(`${on} ${number}`) ?? []).filter((other) => other !== index);
      const [only] = others;
      if (only === undefined || others.length > 1) continue;
      if (!contradict(record.animal, files[only]!.record.animal)) join(first, index, only);
    }
  }
  const groups = new Map<number, FileOnFarm[]>();
  for (const [index, file] of files.entries()) {
    const group = groups.get(rootOf(first, index));
    if (group === undefined) groups.set(rootOf(first, index), [file]);
    else group.push(file);
  }
  return [...groups.values()];
}

function identitiesOf({ tag, electronic }: Animal): string[] {
  return [
    ...(tag === undefined ? [] : [`tag ${plain(tag)}`]),
    ...(electronic === undefined ? [] : [`electronic ${plain(electronic)}`]),
  ];
}

function contradict(one: Animal, other: Animal): boolean {
  return one.tag !== undefined && other.tag !== undefined && plain(one.tag) !== plain(other.tag);
}

function plain(mark: string): string {
  return mark.replace(/\s+/g, '').toUpperCase();
}

function rootOf(first: readonly number[], index: number): number {
  let root = index;
  while (first[root] !== root) root = first[root]!;
  return root;
}

function join(first: number[], one: number, other: number): void {
  const [a, b] = [rootOf(first, one), rootOf(first, other)];
  first[Math.max(a, b)] = Math.min(a, b);
}

function compare(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

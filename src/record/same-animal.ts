import type { Animal } from './animal.js';

/** A mark as it is compared: capitals, no spaces or hyphens. @example bareMark('uk 000123-402086') // → 'UK000123402086' */
export function bareMark(mark: string): string {
  return mark.replaceAll(/[\s-]/g, '').toUpperCase();
}

/** A file, by its farm's folder and its own name. */
type PlaceOfFile = Readonly<{ farm: string; slug: string }>;

/** Of an animal, what shows that two files are of one. */
export type Identity = Pick<Animal, 'animal' | 'tag' | 'electronic' | 'earlier'>;

/** A farm's files, or what is held of each: whose it is, and anything more. */
export interface FilesOfFarm<Held = unknown> {
  readonly slug: string;
  readonly cases: readonly (Held & { readonly slug: string; readonly animal: Identity })[];
}

/** The name of a file among all: `quernholt/2086`. */
export function nameOfFile({ farm, slug }: PlaceOfFile): string {
  return `${farm}/${slug}`;
}

/**
 * One name for each animal, whichever of her files is asked about: a cow that moved has one on each farm.
 *
 * Files are one animal's where the official tag or the electronic number is the same, or where one says `earlier` with a farm and the
 * number, by default the one she bears now, that just one file there has, unless both have tags and they differ. Without its farm an
 * earlier number settles nothing: on the farm where she gave it up another cow may bear it. The name is that of the first of her files.
 *
 * Shape:   farms in any order → the same names
 * Checked: tests/herd/same-animal.test.ts
 */
export function animalNames(farms: readonly FilesOfFarm[]): (file: PlaceOfFile) => string {
  const files = farms
    .flatMap((farm) => farm.cases.map(({ slug, animal }) => ({ farm: farm.slug, slug, animal })))
    .sort((a, b) => (nameOfFile(a) < nameOfFile(b) ? -1 : 1));
  const firstOf = new Map<string, string>();
  const first = (name: string): string => {
    const known = firstOf.get(name) ?? name;
    return known === name ? name : first(known);
  };
  const join = (one: string, other: string) => {
    const [a, b] = [first(one), first(other)];
    if (a !== b) firstOf.set(a < b ? b : a, a < b ? a : b);
  };
  const bearing = new Map<string, typeof files>();
  for (const file of files) {
    for (const mark of marksOf(file.animal)) {
      const others = bearing.get(mark);
      if (others) join(nameOfFile(others[0]!), nameOfFile(file));
      else bearing.set(mark, [file]);
    }
    const number = `number ${file.farm} ${file.animal.animal}`;
    bearing.set(number, [...(bearing.get(number) ?? []), file]);
  }
  for (const file of files) {
    for (const { animal = file.animal.animal, farm } of file.animal.earlier ?? []) {
      const [there, ...others] = bearing.get(`number ${farm} ${animal}`) ?? [];
      if (there && others.length === 0 && mayBeOne(there.animal, file.animal))
        join(nameOfFile(there), nameOfFile(file));
    }
  }
  return (file) => first(nameOfFile(file));
}

function marksOf({ tag, electronic }: Identity): string[] {
  return [
    ...(tag ? [`tag ${bareMark(tag)}`] : []),
    ...(electronic ? [`electronic ${bareMark(electronic)}`] : []),
  ];
}

function mayBeOne({ tag: one }: Identity, { tag: other }: Identity): boolean {
  return !one || !other || bareMark(one) === bareMark(other);
}

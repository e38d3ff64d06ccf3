import { type Findings, earlierWithTheSame, refuse, warn } from './check-context.js';
import type { Finding } from '../../problem/problem.js';
import { bareMark } from '../../record/same-animal.js';
import { leftFarm } from '../../record/visit.js';
import type { EpisodeResult } from '../../record/words.js';
import type { Animal } from '../../record/animal.js';

/** An animal's file as the checks between files see it: read, and of the right shape. */
interface AnimalFile {
  /** The file's name without `.md`. */
  readonly slug: string;
  /** As the user would type it, with `/`. */
  readonly file: string;
  readonly animal: Animal;
}

/**
 * What is wrong between the animals of one farm: one number, one tag, one cow in trouble at a time; each with the slug of
 * the file it belongs to.
 *
 * A number may come back on a new animal once the earlier one has left the farm.
 */
export function checkBetweenFiles(
  animals: readonly AnimalFile[],
): (Finding & { readonly animalSlug: string })[] {
  const earlier = earlierWithTheSame(animals, namesOf);
  return animals.flatMap((file, i) =>
    earlier[i]!.flatMap((other) => [...sameNumber(other, file), ...sameMark(other, file)]).map((finding) => ({
      ...finding,
      animalSlug: file.slug,
    })),
  );
}

/** All that two files of one farm should not share. */
function namesOf({ animal: { animal: number, tag, electronic } }: AnimalFile): string[] {
  const marks = Object.entries({ tag, electronic }).flatMap(([key, mark]) =>
    mark === undefined ? [] : [`${key} ${bareMark(mark)}`],
  );
  return [`number ${number}`, ...marks];
}

function* sameNumber({ slug, file: earlier, animal: one }: AnimalFile, other: AnimalFile): Findings {
  const { file, animal } = other;
  const { animal: number, tag } = animal;
  if (one.animal !== number) return;
  // What a sync program may have left.
  const copy = [{ slug, file: earlier }, other].find((each) => /copy|conflict|-\d{1,2}$/.test(each.slug));
  if (isOpen(one) && isOpen(animal))
    yield refuse(
      'number-twice',
      ['animal'],
      { number, earlier, file, copy: copy?.file ?? '' },
      { way: copy && 'named' },
    );
  else if (isSame(one.tag, tag))
    yield warn('one-animal-in-two-files', ['animal'], { number, tag: tag!, earlier, file });
  else if (!hasLeft(one) && !hasLeft(animal)) {
    const key = (['tag', 'born'] as const).find(
      (each) => one[each] !== undefined && animal[each] !== undefined && !isSame(one[each], animal[each]),
    );
    if (key)
      yield refuse(key === 'tag' ? 'number-with-other-tag' : 'number-with-other-birth', [key], {
        number,
        mark: animal[key]!,
        other: one[key]!,
        earlier,
      });
  }
}

function* sameMark({ animal: one, file: earlier }: AnimalFile, { animal }: AnimalFile): Findings {
  if (one.animal === animal.animal || !isOpen(one) || !isOpen(animal)) return;
  for (const key of ['tag', 'electronic'] as const)
    if (isSame(animal[key], one[key]))
      yield refuse(`${key}-twice`, [key], {
        mark: animal[key]!,
        number: animal.animal,
        otherNumber: one.animal,
        earlier,
      });
}

/** Her last episode has no end, or none is written. */
function isOpen({ episodes }: Animal): boolean {
  return episodes?.at(-1)?.ended === undefined;
}

const leavingResults = new Set<EpisodeResult | undefined>([...leftFarm, 'lost to follow-up']);

function hasLeft(animal: Animal): boolean {
  return !isOpen(animal) && leavingResults.has(animal.episodes?.at(-1)?.result);
}

function isSame(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && other !== undefined && bareMark(one) === bareMark(other);
}

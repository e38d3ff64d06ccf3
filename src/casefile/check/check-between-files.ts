import { type FarmCheckContext, earlierWithTheSame, refuse, warn } from './check-context.js';
import type { Finding } from '../../problem/problem.js';
import { bareMark } from '../../record/same-animal.js';
import { leftFarm } from '../../record/visit.js';
import type { EpisodeResult } from '../../record/words.js';
import type { Animal } from '../../record/animal.js';

/**
 * What is wrong between the animals of one farm: one number, one tag, one cow in trouble at a time.
 *
 * A number may come back on a new animal once the earlier one has left the farm.
 */
export function checkBetweenFiles(
  animals: readonly AnimalFile[],
  _context: FarmCheckContext,
): BetweenFilesFinding[] {
  const earlier = earlierWithTheSame(animals, namesOf);
  return animals.flatMap((file, i) =>
    earlier[i]!.flatMap((other) => [...sameNumber(other, file), ...sameMark(other, file)]).map((finding) => ({
      ...finding,
      animalSlug: file.slug,
    })),
  );
}

/** All that two files of one farm should not share. */
function namesOf({ animal }: AnimalFile): string[] {
  const marks = [animal.tag, animal.electronic].flatMap((mark, i) =>
    mark === undefined ? [] : [`${i} ${bareMark(mark)}`],
  );
  return [`number ${animal.animal}`, ...marks];
}

function sameNumber(earlier: AnimalFile, file: AnimalFile): Finding[] {
  const number = file.animal.animal;
  if (earlier.animal.animal !== number) return [];
  // What a sync program may have left.
  const copy = [earlier, file].find(({ slug }) => /copy|conflict|-\d{1,2}$/.test(slug));
  if (isOpen(earlier) && isOpen(file))
    return [
      refuse(
        'number-twice',
        ['animal'],
        { number, earlier: earlier.file, file: file.file, copy: copy?.file ?? '' },
        { way: copy && 'named' },
      ),
    ];
  if (sameGiven(earlier.animal.tag, file.animal.tag))
    return [
      warn('one-animal-in-two-files', ['animal'], {
        number,
        tag: file.animal.tag!,
        earlier: earlier.file,
        file: file.file,
      }),
    ];
  if (hasLeft(earlier) || hasLeft(file)) return [];
  for (const key of ['tag', 'born'] as const) {
    const [one, other] = [earlier.animal[key], file.animal[key]];
    if (one === undefined || other === undefined || bareMark(one) === bareMark(other)) continue;
    return [
      refuse(key === 'tag' ? 'number-with-other-tag' : 'number-with-other-birth', [key], {
        number,
        mark: other,
        other: one,
        earlier: earlier.file,
      }),
    ];
  }
  return [];
}

function sameMark(earlier: AnimalFile, file: AnimalFile): Finding[] {
  if (earlier.animal.animal === file.animal.animal || !isOpen(earlier) || !isOpen(file)) return [];
  return (['tag', 'electronic'] as const).flatMap((key) => {
    const mark = file.animal[key];
    if (!sameGiven(mark, earlier.animal[key])) return [];
    return [
      refuse(`${key}-twice`, [key], {
        mark: mark!,
        number: file.animal.animal,
        otherNumber: earlier.animal.animal,
        earlier: earlier.file,
      }),
    ];
  });
}

/** Her last episode has no end, or none is written. */
function isOpen({ animal }: AnimalFile): boolean {
  return animal.episodes?.at(-1)?.ended === undefined;
}

const leavingResults = new Set<EpisodeResult>([...leftFarm, 'lost to follow-up']);

function hasLeft({ animal }: AnimalFile): boolean {
  const last = animal.episodes?.at(-1);
  return last?.ended !== undefined && last.result !== undefined && leavingResults.has(last.result);
}

function sameGiven(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && other !== undefined && bareMark(one) === bareMark(other);
}

/** A finding of a check that saw several files, with the slug of the animal's file it belongs to. */
interface BetweenFilesFinding extends Finding {
  readonly animalSlug: string;
}

/** An animal's file as the checks between files see it: read, and of the right shape. */
interface AnimalFile {
  /** The file's name without `.md`. */
  readonly slug: string;
  /** As the user would type it, with `/`. */
  readonly file: string;
  readonly animal: Animal;
}

import type { Animal } from '../../record/animal.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';

/** Pictures lie in the farm's folder and are JPEG, PNG or WebP. One that is missing is a gap, not an error. */
export function checkPhotosOfVisit(animal: Animal, context: AnimalCheckContext): Finding[] {
  const shown = new Map<string, string>();
  return animal.visits.flatMap((visit, i) =>
    (visit.photos ?? []).flatMap(({ file }, at) => {
      const path = ['visits', i, 'photos', at, 'file'];
      const before = shown.get(file);
      shown.set(file, visit.date);
      const wrong = wrongFile(file, path, context);
      if (wrong || before === undefined) return wrong ? [wrong] : [];
      return [
        warn(
          'photo-twice',
          path,
          `${file} is shown twice, on ${before} and ${visit.date}, expected each picture once`,
          'name the picture that belongs here, or take one out',
        ),
      ];
    }),
  );
}

function wrongFile(
  file: string,
  path: (string | number)[],
  { picture, farmSlug }: AnimalCheckContext,
): Finding | undefined {
  switch (picture(file).kind) {
    case 'outside':
      return refuse(
        'photo-outside',
        path,
        `${file} lies outside the farm's folder, expected a name inside ${farmSlug}/`,
        `put the picture in ${farmSlug}/photos and write its name as photos/NAME`,
      );
    case 'heic':
      return refuse(
        'photo-heic',
        path,
        `${file} is a HEIC picture, expected JPEG, PNG or WebP`,
        'save it as JPEG and name that file; phones can be set to take JPEG pictures',
      );
    case 'not-a-picture':
      return refuse(
        'photo-not-picture',
        path,
        `${file} is not a picture, expected JPEG, PNG or WebP`,
        'name the picture file; if it does not open on its own, copy it from the phone again',
      );
    default:
      return undefined;
  }
}

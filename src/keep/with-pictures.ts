import type { CalendarDay } from '../record/calendar-day.js';
import type { Photo } from '../record/visit.js';
import { freeName, kindOf } from './add-picture.js';
import { asIf } from '../casefile/as-if.js';
import { cannot, type FileChange, type Keeping, type Worked } from './change.js';

/** A picture to go with a visit: its bytes, what it shows, and how to call it where it cannot be taken. */
export interface PictureOfVisit {
  readonly bytes: Uint8Array;
  readonly shows: Omit<Photo, 'file'>;
  readonly called: string;
}

/** Whose pictures they are: her farm's folder, the name of her file, the day. */
export interface PicturesOf {
  readonly folder: { readonly path: string; readonly shown: string };
  readonly slug: string;
  readonly date: CalendarDay;
}

/**
 * A change that needs pictures in the farm's `photos`: they are laid under clear names first, the change is worked out
 * as if they lay there, and all is one change. A picture whose very bytes lie there under its name is not laid twice.
 */
export function withPictures(
  keeping: Keeping,
  { folder, slug, date }: PicturesOf,
  pictures: readonly PictureOfVisit[],
  work: (now: Keeping, photos: readonly Photo[]) => Worked,
): Worked {
  const { path, shown } = folder;
  const files: FileChange[] = [];
  const photos: Photo[] = [];
  for (const { bytes, shows, called } of pictures) {
    const now = { ...keeping, files: asIf(keeping.files, files) };
    const kind = kindOf(now, path, bytes);
    if (kind !== 'jpeg' && kind !== 'png' && kind !== 'webp')
      return cannot(`${called} is ${kind}, expected JPEG, PNG or WebP`);
    const stem = [slug, date, shows.foot, shows.claw, shows.view]
      .filter((part) => part !== undefined)
      .join('-');
    const ending = kind === 'jpeg' ? 'jpg' : kind;
    const file = freeName(now, path, stem.toLowerCase().replaceAll(' ', '-'), ending, bytes);
    photos.push({ file, ...shows });
    if (!now.files.look(`${path}/${file}`))
      files.push({ file: `${shown}/${file}`, path: `${path}/${file}`, before: undefined, after: bytes });
  }
  const worked = work({ ...keeping, files: asIf(keeping.files, files) }, photos);
  if (worked.outcome !== 'change') return worked;
  return { ...worked, change: { ...worked.change, files: [...files, ...worked.change.files] } };
}

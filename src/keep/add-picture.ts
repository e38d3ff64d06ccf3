import { lookAtPicture } from '../casefile/look-at-picture.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Photo } from '../record/visit.js';
import { asIf } from '../casefile/as-if.js';
import { type Keeping, type Worked, cannot, type FileChange } from './change.js';
import { findFarm, openAnimal } from './kept-file.js';
import { changeOfFile, workedOut } from './work-out.js';
import { terminal } from '../problem/message.js';

/** A picture as it comes from a phone, and what it shows. */
interface PictureDraft {
  readonly bytes: Uint8Array;
  /** The day of the visit it belongs to; the last visit's without it. */
  readonly date: CalendarDay | undefined;
  readonly shows: Omit<Photo, 'file'>;
}

/**
 * A picture copied into the farm's `photos` under a clear name, and put under its visit. Its bytes are kept; a name
 * that is taken gets a number behind it, so that nothing is written over.
 */
export function addPicture(keeping: Keeping, farm: string, animal: string, draft: PictureDraft): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const { kept } = opened;
  const { visits } = kept.record;
  const index =
    draft.date === undefined ? visits.length - 1 : visits.findLastIndex(({ date }) => date === draft.date);
  const visit = visits[index];
  if (!visit)
    return visits.length === 0 || draft.date === undefined
      ? cannot(`keep.picture.${draft.date === undefined ? 'no-visit-yet' : 'no-visits'}`, {
          file: kept.file,
          day: String(draft.date),
        })
      : cannot('keep.picture.no-such-visit', { file: kept.file, day: draft.date, last: visits.at(-1)!.date });
  const { path: folder, shown } = found.farm.entry;
  const { foot, claw, view } = draft.shows;
  const slug = kept.path.replace(/^.*\//, '').replace(/\.md$/, '');
  const stem = [slug, visit.date, foot, claw, view].filter((part) => part !== undefined).join('-');
  const kind = kindOf(keeping, folder, draft.bytes);
  if (kind === 'heic') return cannot('keep.picture.heic');
  if (kind !== 'jpeg' && kind !== 'png' && kind !== 'webp') return cannot('keep.picture.no-picture');
  const file = freeName(
    keeping,
    folder,
    stem.toLowerCase().replaceAll(' ', '-'),
    kind === 'jpeg' ? 'jpg' : kind,
  );
  const picture = {
    file: `${shown}/${file}`,
    path: `${folder}/${file}`,
    before: undefined,
    after: draft.bytes,
  };
  const value: Photo = { file, ...draft.shows };
  const entry = {
    put: 'entry',
    path: ['visits', index, 'photos'],
    index: visit.photos?.length ?? 0,
    value,
  } as const;
  const change = changeOfFile({ kept, steps: [entry] }, keeping);
  if ('outcome' in change) return change;
  return workedOut(
    { what: terminal('keep.what.picture', { file }), farms: [farm], files: [picture, change] },
    keeping,
  );
}

/** What kind of picture bytes are, as the reader tells it. */
export function kindOf({ files }: Keeping, folder: string, bytes: Uint8Array): string {
  const name = 'photos/looked-at';
  return lookAtPicture(asIf(files, [{ path: `${folder}/${name}`, after: bytes }]), folder, name).kind;
}

/** A name nothing stands under yet, or under which these very bytes stand. */
export function freeName(
  { files }: Keeping,
  folder: string,
  stem: string,
  ending: string,
  same?: Uint8Array,
): string {
  for (let n = 1; ; n += 1) {
    const name = `photos/${stem}${n === 1 ? '' : `-${n}`}.${ending}`;
    const there = files.look(`${folder}/${name}`);
    if (!there) return name;
    if (same && there.bytes === same.length && Buffer.compare(files.read(`${folder}/${name}`), same) === 0)
      return name;
  }
}

/** A picture to go with a visit: its bytes, what it shows, and how to call it where it cannot be taken. */
export interface PictureOfVisit {
  readonly bytes: Uint8Array;
  readonly shows: Omit<Photo, 'file'>;
  readonly called: string;
}

/** Whose pictures they are: her farm's folder, the name of her file, the day. */
interface PicturesOf {
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
      return cannot('keep.picture.of-visit', { picture: called, kind });
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

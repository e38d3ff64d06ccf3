import { lookAtPicture } from '../casefile/look-at-picture.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Photo } from '../record/visit.js';
import { asIf } from '../casefile/as-if.js';
import { type Keeping, type Worked, cannot, fileChange, type FileChange, type Folder } from './change.js';
import { findFarm, openAnimal, slugOf } from './kept-file.js';
import { changeOfFile, workedOut } from './work-out.js';
import { terminal } from '../problem/message.js';

/** A picture and what it shows. */
interface Picture {
  readonly bytes: Uint8Array;
  readonly shows: Omit<Photo, 'file'>;
}

/**
 * A picture copied into the farm's `photos` under a clear name, and put under its visit. Its bytes are kept; a name
 * that is taken gets a number behind it, so that nothing is written over.
 *
 * Shape: `date` is that of the visit it belongs to; the last visit's without it
 */
export function addPicture(
  keeping: Keeping,
  farm: string,
  animal: string,
  draft: Picture & { readonly date: CalendarDay | undefined },
): Worked {
  const [opened, found] = [openAnimal(keeping, farm, animal), findFarm(keeping, farm)];
  if (opened.outcome !== 'open') return opened;
  if (found.outcome !== 'found') return found;
  const { kept } = opened;
  const { visits } = kept.record;
  const { date: day = visits.at(-1)?.date, shows } = draft;
  const index = visits.findLastIndex(({ date }) => date === day);
  const visit = visits[index];
  if (!visit) {
    const last = visits.at(-1)?.date ?? '';
    const way = last !== '' ? 'no-such-visit' : day === undefined ? 'no-visit-yet' : 'no-visits';
    return cannot(`keep.picture.${way}`, { file: kept.file, day: day ?? '', last });
  }
  const folder = found.farm.entry;
  const { kind, file } = named(keeping, { folder, slug: slugOf(kept), date: visit.date }, draft);
  if (file === undefined) return cannot(`keep.picture.${kind === 'heic' ? 'heic' : 'no-picture'}`);
  const path = ['visits', index, 'photos'];
  const value: Photo = { file, ...shows };
  const entry = { put: 'entry', path, index: visit.photos?.length ?? 0, value } as const;
  const change = changeOfFile({ kept, steps: [entry] }, keeping);
  if ('outcome' in change) return change;
  const files = [fileChange(folder, file, undefined, draft.bytes), change];
  return workedOut({ what: terminal('keep.what.picture', { file }), farms: [farm], files }, keeping);
}

const endings: Readonly<Record<string, string>> = { jpeg: 'jpg', png: 'png', webp: 'webp' };

/** What kind of picture it is, as the reader tells it, and the name it gets; none for what is no picture. */
function named(
  keeping: Keeping,
  { folder, slug, date }: PicturesOf,
  { bytes, shows: { foot, claw, view } }: Picture,
  same?: Uint8Array,
): { readonly kind: string; readonly file: string | undefined } {
  const kind = kindOf(keeping, folder.path, bytes);
  const ending = endings[kind];
  const stem = [slug, date, foot, claw, view].filter((part) => part !== undefined).join('-');
  const plain = stem.toLowerCase().replaceAll(' ', '-');
  return { kind, file: ending && freeName(keeping, folder.path, plain, ending, same) };
}

/** What kind of picture bytes are, as the reader tells it. */
export function kindOf({ files }: Keeping, folder: string, bytes: Uint8Array): string {
  const name = 'photos/looked-at';
  return lookAtPicture(asIf(files, [{ path: `${folder}/${name}`, after: bytes }]), folder, name).kind;
}

/** A name there is nothing under yet, or under which these very bytes stand. */
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

/** A picture to go with a visit, and how to call it where it cannot be taken. */
export interface PictureOfVisit extends Picture {
  readonly called: string;
}

/** Whose pictures they are: her farm's folder, the name of her file, the day. */
export interface PicturesOf {
  readonly folder: Folder;
  readonly slug: string;
  readonly date: CalendarDay;
}

/**
 * A change that needs pictures in the farm's `photos`: they are laid under clear names first, the change is worked out
 * as if they lay there, and all is one change. A picture whose very bytes lie there under its name is not laid twice.
 */
export function withPictures(
  keeping: Keeping,
  of: PicturesOf,
  pictures: readonly PictureOfVisit[],
  work: (now: Keeping, photos: readonly Photo[]) => Worked,
): Worked {
  const files: FileChange[] = [];
  const photos: Photo[] = [];
  const now = (): Keeping => ({ ...keeping, files: asIf(keeping.files, files) });
  for (const picture of pictures) {
    const { bytes, shows, called } = picture;
    const { kind, file } = named(now(), of, picture, bytes);
    if (file === undefined) return cannot('keep.picture.of-visit', { picture: called, kind });
    photos.push({ file, ...shows });
    const change = fileChange(of.folder, file, undefined, bytes);
    if (!now().files.look(change.path)) files.push(change);
  }
  const worked = work(now(), photos);
  if (worked.outcome !== 'change') return worked;
  return { ...worked, change: { ...worked.change, files: [...files, ...worked.change.files] } };
}

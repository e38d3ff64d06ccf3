import { isDeepStrictEqual } from 'node:util';
import type { Visit } from '../../record/visit.js';
import { addVisit, type Declares } from '../add-visit.js';
import { cannot, type Keeping, type Worked } from '../change.js';
import { sha256Of } from '../../ledger/canonical.js';
import { findFarm, openAnimal } from '../find-kept.js';
import { bytesOf } from '../kept-file.js';
import type { VisitDraft } from '../visit-draft.js';
import { type PictureOfVisit, withPictures } from '../with-pictures.js';
import type { InboxEntry } from './inbox-entry.js';
import { pictureIn, readInbox, sentBefore } from './read-inbox.js';

/** What taking an entry comes to: a change to be written, or that the visit is on file already, or why not. */
export type TakenEntry = Worked | { readonly outcome: 'already there' };

/**
 * The change that takes an entry of the inbox into its case file, its pictures into the farm's `photos` under clear
 * names. Nothing is written here.
 *
 * A visit that is on file word for word, whatever its pictures are called, is there already: taking was broken off
 * between the file and its mark.
 *
 * Checked: tests/cli/take-inbox.test.ts
 */
export function takeEntry(now: Keeping, farm: string, entry: InboxEntry): TakenEntry {
  const keeping: Keeping = entry['even-so'] ? { ...now, evenSo: true } : now;
  const found = findFarm(keeping, farm);
  if (found.outcome !== 'found') return found;
  const opened = openAnimal(keeping, farm, entry.animal);
  if (opened.outcome !== 'open') return opened;
  const draft = entry.visit as VisitDraft;
  const declares = (entry.declares ?? {}) as Declares;
  const there = opened.kept.record.visits.filter((visit) => isSame(visit, draft));
  if (there.some(({ photos = [] }) => photos.length >= entry.pictures.length))
    return { outcome: 'already there' };
  if (there.length > 0)
    return cannot(
      `this very visit is on file without the pictures sent here; add them with \`growdown photo ${farm}/${entry.animal} PICTURE\`, then set this one aside: ${entry.pictures.map(({ held }) => pictureIn(found.farm.entry.shown, held)).join(', ')}`,
    );
  const inbox = readInbox(keeping.files, found.farm.entry.path);
  const earlier = sentBefore(inbox, entry['instead-of'] ?? entry.id);
  if (earlier.some(({ id }) => id !== entry.id && inbox.marks.get(id)?.became === 'added'))
    return cannot(
      'the form was sent again with changes after its first sending had been taken; put the visit on file right with `growdown correct`, then set this one aside',
    );
  const { path, shown } = found.farm.entry;
  const pictures: PictureOfVisit[] = [];
  for (const { held, sha256, shows } of entry.pictures) {
    const called = `the picture ${pictureIn(shown, held)}`;
    const bytes = bytesOf(keeping.files, pictureIn(path, held));
    if (!bytes || sha256Of(bytes) !== sha256)
      return cannot(`${called} is gone or is not the one that was sent`);
    pictures.push({ bytes, shows, called });
  }
  const of = { folder: found.farm.entry, slug: entry.animal, date: draft.date };
  return withPictures(keeping, of, pictures, (then, photos) =>
    addVisit(
      then,
      farm,
      entry.animal,
      photos.length === 0 ? draft : { ...draft, photos: [...photos] },
      declares,
    ),
  );
}

/** Word for word, but for its pictures. */
function isSame(visit: Visit, draft: VisitDraft): boolean {
  const bare = ({ photos: _photos, ...rest }: Visit | VisitDraft): unknown =>
    JSON.parse(JSON.stringify(rest));
  return isDeepStrictEqual(bare(visit), bare(draft));
}

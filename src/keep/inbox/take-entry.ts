import { isDeepStrictEqual } from 'node:util';
import { addVisit, type Declares } from '../add-visit.js';
import { openCase } from '../open-case.js';
import { correctSent, placeOnFile } from './correct-sent.js';
import { cannot, type Keeping, type Worked } from '../change.js';
import { sha256Of } from '../../ledger/canonical.js';
import { findFarm, openAnimal, bytesOf } from '../kept-file.js';
import type { VisitDraft } from '../visit-draft.js';
import { type PictureOfVisit, withPictures } from '../add-picture.js';
import {
  type Inbox,
  type InboxEntry,
  marksIn,
  pictureIn,
  readInbox,
  sentBefore,
  entriesIn,
} from './inbox-entry.js';
import type { Disk } from '../disk/disk.js';
import { inRow, terminal } from '../../problem/message.js';

/** What taking an entry comes to: a change to be written, or that the visit is on file already, or why not. */
export type TakenEntry = Worked | { readonly outcome: 'already there' };

/**
 * The change that takes an entry of the inbox into its case file, its pictures into the farm's `photos` under clear
 * names. Its mark goes with the change, and where that is taken back the entry waits again. Nothing is written here.
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
  const { entry: folder, animals } = found.farm;
  const draft = entry.visit as VisitDraft;
  const declares = (entry.declares ?? {}) as Declares;
  const { id, opens, animal } = entry;
  const isThere = animals.some(({ slug }) => slug === animal);
  const opened = opens && !isThere ? undefined : openAnimal(keeping, farm, animal);
  if (opened && opened.outcome !== 'open') return opened;
  const visits = opened?.kept.record.visits ?? [];
  const was = takenBefore(readInbox(keeping.files, folder.path), entry['instead-of'] ?? id, id);
  if (was && was.animal !== animal) return cannot('keep.inbox.sent-again');
  const known = new Set(was?.pictures.map(({ sha256 }) => sha256));
  const added = entry.pictures.filter(({ sha256 }) => !known.has(sha256));
  const there = visits[placeOnFile(visits, draft)];
  if (there && (there.photos?.length ?? 0) >= known.size + added.length) return { outcome: 'already there' };
  const shown = (held: string): string => pictureIn(folder.shown, held);
  if (there && !was) {
    const held = entry.pictures.map((one) => shown(one.held));
    return cannot('keep.inbox.pictures-lack', {
      animal: `${farm}/${animal}`,
      pictures: inRow('comma', held),
    });
  }
  const pictures: PictureOfVisit[] = [];
  for (const { held, sha256, shows } of added) {
    const called = terminal('keep.inbox.picture', { file: shown(held) });
    const bytes = bytesOf(keeping.files, pictureIn(folder.path, held));
    if (!bytes || sha256Of(bytes) !== sha256) return cannot('keep.inbox.picture-gone', { picture: called });
    pictures.push({ bytes, shows, called });
  }
  const of = { folder, slug: animal, date: draft.date };
  const worked = withPictures(keeping, of, pictures, (then, photos) => {
    if (was && opened)
      return correctSent(opened.kept, farm, { was: was.visit, draft, declares, photos, on: entry.on }, then);
    const whole = photos.length === 0 ? draft : { ...draft, photos: [...photos] };
    return opens
      ? openCase(then, farm, animal, { ...opens, lesions: {}, ...declares, visits: [whole] })
      : addVisit(then, farm, animal, whole, declares);
  });
  if (worked.outcome !== 'change') return worked;
  const mark = { now: { id, became: 'added' }, undone: { id, became: 'taken back' } };
  return { ...worked, change: { ...worked.change, lines: [{ path: marksIn(folder.path), ...mark }] } };
}

/** Of the earlier sendings of the same form the last that is on file. */
export function takenBefore(inbox: Inbox, form: string, but?: string): InboxEntry | undefined {
  const isOnFile = (one: string): boolean => ['added', 'already there'].includes(inbox.marks.get(one)?.became ?? ''); // prettier-ignore
  return sentBefore(inbox, form).findLast(({ id }) => id !== but && isOnFile(id));
}

/** A picture that lies in the inbox, and what it shows. */
export type HeldPicture = InboxEntry['pictures'][number];

/** A visit as a form sends it; `form`: the random id the form was given when it was drawn. */
export interface Sent extends Readonly<Pick<InboxEntry, 'on' | 'animal' | 'opens'>> {
  readonly form: string;
  readonly visit: VisitDraft;
  readonly declares: Declares;
  readonly evenSo?: boolean;
  readonly pictures: readonly HeldPicture[];
}

/** Already synced to the disk; `kept instead`: in the place of what the same form said before. */
export interface Kept {
  readonly outcome: 'kept' | 'already kept' | 'kept instead';
  readonly entry: InboxEntry;
}

/** Lays a picture in the inbox, synced. The same picture of the same form lies there once. */
export function holdPicture(
  disk: Disk,
  farmFolder: string,
  form: string,
  bytes: Uint8Array,
): Pick<HeldPicture, 'held' | 'sha256'> {
  const sha256 = sha256Of(bytes);
  const held = `${form}-${sha256.slice(0, 16)}`;
  const there = bytesOf(disk.files, pictureIn(farmFolder, held));
  if (!there || Buffer.compare(there, bytes) !== 0) disk.replace(pictureIn(farmFolder, held), bytes);
  return { held, sha256 };
}

/**
 * Keeps a visit in the farm's inbox: its line is on the disk, synced, before this returns.
 *
 * The same form sent twice is kept once. Sent again with something else in it, it is kept once more and is in the
 * place of what it said before, so that neither a double tap doubles a visit nor going back loses a change. A page
 * that is loaded anew is another form: what it sends is kept once too where the very same still waits from that day.
 *
 * Error:   what the file system throws; the visit then is not kept, and must not be called so
 * Checked: tests/form/yard/kept.test.ts, tests/form/yard/killed.test.ts
 */
export function keepEntry(disk: Disk, farmFolder: string, sent: Sent): Kept {
  const inbox = readInbox(disk.files, farmFolder);
  const last = sentBefore(inbox, sent.form).at(-1);
  const entry = entryOf(inbox, sent);
  const isSame = last && isDeepStrictEqual(said(last), said(entry));
  const there = last ? isSame && last : inbox.open.find((other) => isTwin(other, entry));
  if (there) return { outcome: 'already kept', entry: there };
  disk.append(entriesIn(farmFolder), `${JSON.stringify(entry)}\n`);
  return { outcome: last ? 'kept instead' : 'kept', entry };
}

/** A visit as it would lie in the inbox, behind what the same form said before. */
export function entryOf(inbox: Pick<Inbox, 'entries'>, sent: Sent): InboxEntry {
  const { form, on, animal, visit, opens, declares, evenSo, pictures } = sent;
  const { length } = sentBefore(inbox, form);
  return {
    format: 1,
    id: length > 0 ? `${form}.${length + 1}` : form,
    ...(length > 0 ? { 'instead-of': form } : {}),
    on,
    animal,
    visit,
    ...(opens ? { opens } : {}),
    ...(Object.keys(declares).length === 0 ? {} : { declares }),
    ...(evenSo ? { 'even-so': true } : {}),
    pictures: [...pictures],
  };
}

/** The same of the same animal on the same day, sent by another form: pictures are the same by their bytes. */
function isTwin(one: InboxEntry, other: InboxEntry): boolean {
  const bare = (entry: InboxEntry): unknown => ({
    said: said({ ...entry, pictures: [] }),
    pictures: entry.pictures.map(({ sha256, shows }) => ({ sha256, shows })),
  });
  return one.on === other.on && isDeepStrictEqual(bare(one), bare(other));
}

/** As it reads back, without what only distinguishes the sendings. */
function said({ animal, visit, opens, declares, pictures, 'even-so': evenSo }: InboxEntry): unknown {
  return JSON.parse(JSON.stringify({ animal, visit, opens, declares, pictures, evenSo }));
}

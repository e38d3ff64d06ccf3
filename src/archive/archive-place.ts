import { basename, dirname, isAbsolute, join, relative } from 'node:path';
import { payload } from '../bag/bag-form.js';
import { bagInFolder } from '../bag/bag-in-folder.js';
import { verifyArchive } from '../bag/check/verify-archive.js';
import { zipOfBag, zipRefusal } from '../bag/zip/zip-of-bag.js';
import { PrintingTrouble } from '../pdf/open-printer.js';
import { nameOfPeriod } from '../record/period.js';
import type { FarmRecord } from '../record/practice.js';
import { folderOf, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { printingTroubleInWords } from '../pdf/find-browser.js';
import { type ArchiveOptions, picturesPath } from './archive-facts.js';
import { factsIn, picturesIn } from './check-records.js';
import type { FarmArchived } from './archive-farm.js';
import { inRow, terminal } from '../problem/message.js';

/** Where a farm's archive goes, as it is shown. */
export function archivePlaceOf({ slug }: FarmRecord, { out, period }: ArchiveOptions, today: string): string {
  return join(out, `${slug}-${today}${period ? `-of-${nameOfPeriod(period)}` : ''}`);
}

/** An archive holds case files: among the farms it would be read as one of them. */
export function refuseAmongCases({ out, cases }: ArchiveOptions, effects: Effects): void {
  const way = relative(folderOf(effects, cases), folderOf(effects, out));
  if (way === '' || (!/^\.\.(?:$|[/\\])/.test(way) && !isAbsolute(way)))
    throw new WrongUse(terminal('archive.among-cases', { out }));
}

/** Whether the place is free, or holds an archive without the zip that is wanted. Refuses to write over one. */
export function standsWithoutZip(
  place: string,
  { zip = false }: { readonly zip?: boolean },
  effects: Effects,
): boolean {
  const stands = (one: string): boolean => effects.bags.look(folderOf(effects, one)) !== undefined;
  const zipStands = zip && stands(`${place}.zip`);
  if (stands(place) && zip && !zipStands) return true;
  if (stands(place) || zipStands)
    throw new WrongUse(terminal('archive.stands', { place: stands(place) ? place : `${place}.zip` }));
  return false;
}

/**
 * Writes an archive under a temporary name and moves it to its place when it is whole; the zip last. One that stands
 * there whole without its zip, as a run leaves it that is ended between the two, gets the zip.
 */
export async function writtenWhole(
  place: string,
  options: ArchiveOptions,
  effects: Effects,
  write: (folder: string) => Promise<FarmArchived>,
): Promise<FarmArchived & { readonly zip?: string }> {
  const { bags } = effects;
  const at = folderOf(effects, place);
  const begun = `${at}.${bags.token()}.tmp`;
  try {
    if (bags.look(dirname(at))) bags.sweep(dirname(at));
    const standing = standsWithoutZip(place, options, effects)
      ? await standingWhole(place, effects)
      : undefined;
    const done = standing ?? (await write(begun));
    if (!options.zip) {
      standsWithoutZip(place, options, effects);
      bags.rename(begun, at);
      return done;
    }
    await writeZip(place, { from: standing ? at : begun, to: `${begun}.zip` }, effects);
    if (!standing) {
      // Another run may have been quicker.
      standsWithoutZip(place, {}, effects);
      bags.rename(begun, at);
    }
    bags.rename(`${begun}.zip`, `${at}.zip`);
    return { ...done, zip: `${place}.zip` };
  } catch (error) {
    const left = [begun, `${begun}.zip`].filter((one) => !isRemoved(one, effects));
    if (error instanceof PrintingTrouble)
      throw new WrongUse(terminal('archive.no-pdf', { trouble: printingTroubleInWords(error) }));
    const { code, path = place } = error as NodeJS.ErrnoException;
    if (code === undefined || error instanceof WrongUse) throw error;
    const way = `${bags.look(at) === undefined ? 'nothing-kept' : 'folder-whole'}${left.length === 0 ? '' : '-rest'}`;
    throw new WrongUse(
      terminal(`archive.not-written.${way}`, { place, path, code, rest: inRow('comma', left) }),
    );
  }
}

function isRemoved(path: string, { bags }: Effects): boolean {
  try {
    bags.removeAll(path);
    return true;
  } catch {
    return false;
  }
}

async function writeZip(
  place: string,
  { from, to }: { readonly from: string; readonly to: string },
  { bags }: Effects,
): Promise<void> {
  const { files } = bagInFolder(bags, from);
  const refused = zipRefusal(files, place);
  if (refused !== undefined) throw new WrongUse(refused);
  const file = bags.create(to);
  try {
    for await (const piece of zipOfBag(files, basename(place))) file.write(piece);
  } finally {
    file.close();
  }
}

/** What an existing archive holds, where it is as it was written. */
async function standingWhole(place: string, effects: Effects): Promise<FarmArchived> {
  let found: FarmArchived | undefined;
  const verified = await verifyArchive(effects.bags, folderOf(effects, place), ({ files }) => {
    const facts = factsIn({ files });
    const kept = [...files.sizes].filter(([path]) => path.startsWith(payload));
    const oxum = { files: kept.length, bytes: kept.reduce((sum, [, bytes]) => sum + bytes, 0) };
    const pictures = (files.sizes.has(payload + picturesPath) ? (picturesIn({ files }) ?? []) : []).filter(
      ({ archivedAs }) => archivedAs !== '',
    ).length;
    found = facts && { facts, oxum, pictures };
    return [];
  });
  if (found === undefined || verified?.problems.length !== 0)
    throw new WrongUse(terminal('archive.stands-changed', { place }));
  return found;
}

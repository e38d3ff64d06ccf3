import { isAbsolute, join, relative } from 'node:path';
import { bagInFolder } from '../../archive/bag/bag-in-folder.js';
import { zipOfBag, zipRefusal } from '../../archive/zip/zip-of-bag.js';
import { PrintingTrouble } from '../../pdf/printing-trouble.js';
import { nameOfPeriod } from '../../record/period.js';
import type { FarmRecord } from '../../record/practice.js';
import { folderOf } from '../common-options.js';
import type { Effects } from '../effects.js';
import { WrongUse } from '../exit-code.js';
import { printingTroubleInWords } from '../printing-in-words.js';
import type { ArchiveOptions } from './archive-options.js';
import type { FarmArchived } from './archive-farm.js';

/** Where a farm's archive is to stand, as it is shown. */
export function placeOf({ slug }: FarmRecord, { out, period }: ArchiveOptions, today: string): string {
  return join(out, `${slug}-${today}${period ? `-of-${nameOfPeriod(period)}` : ''}`);
}

/** An archive holds case files: among the farms it would be read as one of them. */
export function refuseAmongCases({ out, cases }: ArchiveOptions, effects: Effects): void {
  const way = relative(folderOf(effects, cases), folderOf(effects, out));
  if (way === '' || (!/^\.\.(?:$|[/\\])/.test(way) && !isAbsolute(way)))
    throw new WrongUse(
      `--out ${out} lies in the cases folder, where an archive would be taken for a farm: name another folder`,
    );
}

/** Refuses to write where an archive stands already. */
export function refuseStanding(place: string, { zip }: ArchiveOptions, effects: Effects): void {
  const standing = [place, ...(zip ? [`${place}.zip`] : [])].find(
    (one) => effects.bags.look(folderOf(effects, one)) !== undefined,
  );
  if (standing !== undefined)
    throw new WrongUse(
      `${standing} stands already, and an archive is never written over: move it away, or name another folder with --out. Nothing was written`,
    );
}

/** Writes an archive under a name of its own and moves it to its place when it is whole. */
export async function writtenWhole(
  place: string,
  options: ArchiveOptions,
  effects: Effects,
  write: (folder: string) => Promise<FarmArchived>,
): Promise<FarmArchived & { readonly zip?: string }> {
  const { zip } = options;
  const { bags } = effects;
  const at = folderOf(effects, place);
  const begun = `${at}.${bags.token()}.tmp`;
  try {
    const done = await write(begun);
    if (zip) {
      const { files } = bagInFolder(bags, begun);
      const refused = zipRefusal(files);
      if (refused !== undefined)
        throw new WrongUse(`${place}: no zip can be made of it, ${refused}; leave out --zip`);
      const file = bags.create(`${begun}.zip`);
      try {
        for await (const piece of zipOfBag(files, at.split(/[/\\]/).at(-1)!)) file.write(piece);
      } finally {
        file.close();
      }
    }
    // Another run may have been quicker.
    refuseStanding(place, options, effects);
    bags.rename(begun, at);
    if (zip) bags.rename(`${begun}.zip`, `${at}.zip`);
    return zip ? { ...done, zip: `${place}.zip` } : done;
  } catch (error) {
    bags.removeAll(begun);
    bags.removeAll(`${begun}.zip`);
    if (error instanceof PrintingTrouble)
      throw new WrongUse(`${printingTroubleInWords(error)}\nWith --no-pdf an archive is made without it.`);
    const { code, path = place } = error as NodeJS.ErrnoException;
    if (code === undefined || error instanceof WrongUse) throw error;
    throw new WrongUse(
      `${place} could not be written, and nothing was kept of it: the system refuses ${path} (${code}). Look whether it is open in another program or not yours, and whether there is room; or name another folder with --out`,
    );
  }
}

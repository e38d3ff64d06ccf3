import { join } from 'node:path';
import { folderOf } from './exit-code.js';
import type { Effects } from './effects.js';
import { terminal } from '../problem/message.js';
import type { FarmRecord } from '../record/practice.js';

/** Reads a picture named in a farm's records; undefined where nothing stands that can be read. A name may be written with `\`. */
export function readPicture(
  effects: Effects,
  cases: string,
  farm: string,
): (file: string) => Uint8Array | undefined {
  const folder = join(folderOf(effects, cases), farm);
  return (file) => {
    const path = join(folder, file.replaceAll('\\', '/'));
    try {
      return effects.files.look(path)?.kind === 'file' ? effects.files.read(path) : undefined;
    } catch {
      return undefined;
    }
  };
}

/** Whether a picture named in a farm's records stands in its folder. */
export function isPictureThere(effects: Effects, cases: string, farm: string): (file: string) => boolean {
  const folder = join(folderOf(effects, cases), farm);
  return (file) => effects.files.look(join(folder, file.replaceAll('\\', '/')))?.kind === 'file';
}

/** A farm by its name, with how many animals and visits it has on file, for a sentence. */
export function farmCounted({ farm, cases }: FarmRecord) {
  const visits = cases.reduce((sum, one) => sum + one.animal.visits.length, 0);
  return { farm: farm.farm, animals: counted(cases.length, 'animal'), visits: counted(visits, 'visit') };
}

/** A number with its noun, for a sentence that has several. @example counted(1, 'visit') // → '1 visit' */
export function counted(
  count: number,
  what: 'animal' | 'file' | 'page' | 'picture' | 'run' | 'visit',
): string {
  return terminal(`count.${what}`, { count });
}

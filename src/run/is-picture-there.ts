import { join } from 'node:path';
import { folderOf } from './common-options.js';
import type { Effects } from './effects.js';

/** Whether a picture named in a farm's records stands in its folder. */
export function isPictureThere(effects: Effects, cases: string, farm: string): (file: string) => boolean {
  const folder = join(folderOf(effects, cases), farm);
  return (file) => effects.files.look(join(folder, file.replaceAll('\\', '/')))?.kind === 'file';
}

import { z } from 'zod';
import type { CaseFiles } from '../../casefile/case-files.js';
import type { Disk } from '../disk/disk.js';
import { bytesOf } from '../kept-file.js';

/** What was once said of a farm's lists. */
const remembered = z.strictObject({
  /** By the name of a column: the key it fills, empty where it is left out. */
  columns: z.record(z.string(), z.string()),
  days: z.enum(['day-first', 'month-first']).optional(),
});
export type RememberedMap = z.infer<typeof remembered>;

function fileOf(casesFolder: string, farm: string): string {
  return `${casesFolder}/.growdown/import-maps/${farm}.json`;
}

/** What is remembered of a farm's lists; nothing where it cannot be read: it is then asked again. */
export function recalledMap(files: CaseFiles, casesFolder: string, farm: string): RememberedMap {
  try {
    const bytes = bytesOf(files, fileOf(casesFolder, farm));
    if (bytes) return remembered.parse(JSON.parse(new TextDecoder().decode(bytes)));
  } catch {
    return { columns: {} };
  }
  return { columns: {} };
}

export function rememberMap(disk: Disk, casesFolder: string, farm: string, map: RememberedMap): void {
  disk.replace(fileOf(casesFolder, farm), `${JSON.stringify(map, null, 2)}\n`);
}

import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { z } from 'zod';

/** One picture or film of the farm, as it was taken and as it lies in the archive. */
export interface PictureListed {
  /** Its own name, from the farm's folder. */
  readonly file: string;
  /** From `data/`; empty where it was left out. */
  readonly archivedAs: string;
  readonly location: 'removed' | 'none found' | 'kept' | 'left out';
  readonly bytes: number;
  readonly sha512: string;
  /** Empty where it was left out. */
  readonly sha512Archived: string;
}

/** Where the list stands under `data/`. */
export const picturesPath = 'pictures.csv';

const sha512 = z.string().regex(/^[0-9a-f]{128}$/);
const row = z.strictObject({
  file: z.string().min(1),
  archived_as: z.string(),
  location: z.enum(['removed', 'none found', 'kept', 'left out']),
  bytes_as_taken: z.string().regex(/^\d{1,15}$/),
  sha512_as_taken: sha512,
  sha512_archived: z.union([sha512, z.literal('')]),
});
const columns = Object.keys(row.shape) as (keyof z.infer<typeof row>)[];

/** The list as CSV (RFC 4180). */
export function pictureListText(pictures: readonly PictureListed[]): string {
  const rows = pictures.map((one): z.infer<typeof row> => ({
    file: one.file,
    archived_as: one.archivedAs,
    location: one.location,
    bytes_as_taken: String(one.bytes),
    sha512_as_taken: one.sha512,
    sha512_archived: one.sha512Archived,
  }));
  return stringify(rows, { header: true, columns, record_delimiter: '\r\n' });
}

/** Reads the list back; undefined where it is not one of ours. */
export function readPictureList(text: string): readonly PictureListed[] | undefined {
  try {
    const rows = z.array(row).parse(parse(text, { columns: true, record_delimiter: '\r\n' }));
    return rows.map((one) => ({
      file: one.file,
      archivedAs: one.archived_as,
      location: one.location,
      bytes: Number(one.bytes_as_taken),
      sha512: one.sha512_as_taken,
      sha512Archived: one.sha512_archived,
    }));
  } catch {
    return undefined;
  }
}

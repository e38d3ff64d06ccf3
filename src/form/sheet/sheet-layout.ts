import { z } from 'zod';
import { readShared } from '../../reference/read-shared.js';

const rows = z.array(z.array(z.string()));
const room = z.strictObject({ front: z.number(), more: z.number(), met: z.number() });
const shape = z.strictObject({
  about: z.string(),
  front: z.array(z.string()),
  back: z.array(z.string()),
  /** Stands behind what was found where that leaves room for it, else first on the back. */
  ifRoom: z.string(),
  parts: z.record(z.string(), rows),
  lesion: rows,
  mark: rows,
  newMark: rows,
  afterMeasuring: z.array(z.string()),
  grids: z.strictObject({ feet: z.array(z.string()), farm: z.array(z.string()) }),
  words: z.record(z.string(), z.array(z.string())),
  ticked: z.record(z.string(), z.enum(['yes', 'no'])),
  bothWays: z.array(z.string()),
  written: z.array(z.string()),
  writtenOnNew: z.array(z.string()),
  widths: z.record(z.string(), z.enum(['short', 'day', 'middle', 'rest'])),
  leftOut: z.record(z.string(), z.string()),
  /** How many lesions a page has room for, and how much of one is taken by a mark, by what is first met, and by each line due above so many. */
  room: z.strictObject({ A4: room, Letter: room, mark: z.number(), dueLines: z.int(), dueLine: z.number() }),
  picturePx: z.int(),
  pictureQuality: z.int(),
});

/** How a yard sheet is laid out: `shared/sheet.json`. */
export const sheetLayout = readShared('sheet.json', shape);

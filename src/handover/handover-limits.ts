import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

const count = z.int().min(0);

/** How many of each part a page holds, and the characters of a text before it is cut. */
const level = z.strictObject({
  notices: count,
  asks: count,
  lesions: count,
  visits: count,
  /** Of the visits, at most so many kept only because a gap ran up or an ulcer opened up there. */
  readings: count,
  treatments: count,
  pictures: count,
  /** The first drawing of the book's sheet, of which the wall alone is at most so many CSS pixels tall; 0 for none. */
  figure: count,
  characters: count,
  /** The characters of a name before it is cut. */
  names: count,
});
export type Level = z.infer<typeof level>;

/** How a handover page keeps to one sheet: `shared/handover.json`. */
export const handoverLimits = readShared(
  'handover.json',
  z.strictObject({
    about: z.string(),
    /** Per cent of the width each column of a table has; of the history the lesions share theirs. */
    columns: z.strictObject({
      history: z.strictObject({
        day: z.number(),
        lesions: z.number(),
        walkOff: z.number(),
        walkOn: z.number(),
        work: z.number(),
      }),
      treatments: z.tuple([z.number()], z.number()),
    }),
    pictureMm: z.number(),
    picturePx: count,
    pictureQuality: count,
    askCharacters: count,
    levels: z.tuple([level], level),
  }),
);

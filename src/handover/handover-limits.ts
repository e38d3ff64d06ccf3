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
  characters: count,
  /** The characters of a name before it is cut. */
  names: count,
});
export type Level = z.infer<typeof level>;

const sheet = z.strictObject({ widthMm: z.number(), heightMm: z.number() });

/** How a handover page keeps to one sheet: `shared/handover.json`. */
export const handoverLimits = readShared(
  'handover.json',
  z.strictObject({
    about: z.string(),
    paper: z.strictObject({ A4: sheet, Letter: sheet }),
    type: z.strictObject({
      headingPt: z.number(),
      textPt: z.number(),
      tablePt: z.number(),
      lineHeight: z.number(),
    }),
    heights: z.strictObject({
      /** Beside its lines. */
      head: z.number(),
      /** As wide as the chip beside her number may be. */
      chip: z.number(),
      heading: z.number(),
      gap: z.number(),
      rowPadding: z.number(),
      reply: z.number(),
      factPadding: z.number(),
      label: z.number(),
      columnGap: z.number(),
      shotGap: z.number(),
      box: z.number(),
      /** Left and right of the words in a box, together. */
      boxSides: z.number(),
      itemGap: z.number(),
      cellGap: z.number(),
    }),
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

import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

const step = z.strictObject({
  /** Longest side of the latest, the previous and the first picture of a strip. */
  largePx: z.int().positive(),
  /** Longest side of the others. */
  smallPx: z.int().positive(),
  /** Of the JPEG, 1 to 100. */
  quality: z.int().min(1).max(100),
});
export type PictureStep = z.infer<typeof step>;

/** Sizes a book's pictures are made in, largest first, and the limits they keep to. Source: shared/picture-steps.json. */
export const pictureNumbers = readShared(
  'picture-steps.json',
  z.strictObject({
    steps: z.tuple([step], step),
    bookMb: sourcedNumber,
    limitMegapixels: sourcedNumber,
    leastShare: sourcedNumber,
  }),
);

import { z } from 'zod';
import { readShared } from './read-shared.js';

const places = z.array(z.string()).min(1);

/** Where browsers that can print a book are installed, by operating system, the first choice first. */
export const browserPlaces = readShared(
  'browser-places.json',
  z.strictObject({ note: z.string(), linux: places, darwin: places, win32: places }),
);

import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

/** The numbers a standing is told by, each with its address; `shared/healing.json`. */
export const healingNumbers = readShared(
  'healing.json',
  z.strictObject({ tellApart: sourcedNumber, rangeSds: sourcedNumber }),
);

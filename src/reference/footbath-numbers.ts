import { z } from 'zod';
import { readShared } from './read-shared.js';
import { address, sourcedNumber } from './sourced.js';

const shared = readShared(
  'footbath.json',
  z.strictObject({
    numbers: z.strictObject({
      weeksAYear: sourcedNumber,
      copperOf: z.strictObject({ pentahydrate: sourcedNumber, anhydrous: sourcedNumber }),
      cropsTakeOff: sourcedNumber,
      soilDepth: sourcedNumber,
      soilDensity: sourcedNumber,
      soilRise: sourcedNumber,
      euSoilLimit: sourcedNumber,
      usLoadLimit: sourcedNumber,
    }),
    names: z.strictObject({ copper: z.array(z.string()), formaldehyde: z.array(z.string()), address }),
  }),
);

/** The numbers of the footbath sums, each with its address; `shared/footbath.json`. */
export const footbathNumbers = shared.numbers;

/** Parts of a product's name, in small letters, that say what is in it. */
export const bathNames: {
  readonly copper: readonly string[];
  readonly formaldehyde: readonly string[];
} = shared.names;

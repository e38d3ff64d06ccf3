import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

/** The numbers that figures over many animals are counted by, and what trials found in groups; `shared/herd.json`. */
export const herdNumbers = readShared(
  'herd.json',
  z.strictObject({
    figures: z.strictObject({
      leastFarms: sourcedNumber,
      leastAnimals: sourcedNumber,
      widestBounds: sourcedNumber,
      fewCases: sourcedNumber,
      carriedForward: sourcedNumber,
      rateCowYears: sourcedNumber,
      level: sourcedNumber,
      yearDays: sourcedNumber,
      boundDraws: sourcedNumber,
      boundSeed: sourcedNumber,
    }),
    trials: z.strictObject({
      longLame: sourcedNumber,
      newlyLameTrim: sourcedNumber,
      newlyLameBlock: sourcedNumber,
      newlyLamePainRelief: sourcedNumber,
      newlyLameAll: sourcedNumber,
      usualDelay: sourcedNumber,
    }),
  }),
);

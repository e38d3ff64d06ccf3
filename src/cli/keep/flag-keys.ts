import type { z } from 'zod';
import { animal } from '../../record/animal.js';
import { business } from '../../record/business.js';
import { farm, footbathPeriod, gaitRound } from '../../record/farm.js';
import { photo, visit } from '../../record/visit.js';
import { type Keys, keysOfRecord } from './key-flags.js';

const without = (schema: z.ZodObject, ...keys: string[]): Keys =>
  new Map([...keysOfRecord(schema)].filter(([key]) => !keys.includes(key)));

/** The keys of a visit, each of them a flag. `amended` is written by a correction alone. */
export const visitKeys = without(visit, 'amended');
/** The keys of an animal. */
export const animalKeys = without(animal, 'casefile', 'visits', 'amended');
/** What may first be met at a visit. */
export const declaredKeys: Keys = new Map(
  [...animalKeys].filter(([key]) => key === 'lesions' || key === 'marks'),
);
/** What a picture shows. */
export const pictureKeys = without(photo, 'file');
export const farmKeys = without(farm, 'footbath', 'gait-rounds', 'amended');
export const businessKeys = without(business);
export const roundKeys = without(gaitRound, 'amended');
export const footbathKeys = without(footbathPeriod, 'amended');

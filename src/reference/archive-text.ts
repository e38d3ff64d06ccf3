import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

const lines = z.array(z.string()).min(1);
const keys = z.array(z.array(z.string()).min(1)).min(1);

/** What an archive needs besides the records: how long cases are kept, keys left out without contacts, endings of films, the text for a stranger. */
export const archiveText = readShared(
  'archive.json',
  z.strictObject({
    note: z.string(),
    'keep-years': sourcedNumber,
    contacts: z.strictObject({ business: keys, farm: keys }),
    'left-out': z.string(),
    /** Stands for a farm an animal came from; a farm's name as a folder may be called. */
    'former-farm': z.string(),
    clips: lines,
    readme: z.strictObject({
      what: lines,
      period: lines,
      places: lines,
      place: z.strictObject({
        cases: z.string(),
        photos: z.string(),
        renamed: z.string(),
        ledger: z.string(),
        books: z.string(),
        audit: z.string(),
        records: z.string(),
        format: z.string(),
        pictures: z.string(),
        facts: z.string(),
      }),
      check: lines,
      chain: lines,
      'no-chain': lines,
      'left-out': lines,
      'location-removed': lines,
      'location-kept': lines,
      'contacts-removed': lines,
      'former-farms-removed': lines,
      'file-left-out': z.string(),
    }),
  }),
);

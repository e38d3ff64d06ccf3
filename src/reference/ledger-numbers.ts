import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

/** From when a record is taken for a sealed one that it is like. Source: shared/ledger.json. */
export const ledgerNumbers = readShared(
  'ledger.json',
  z.strictObject({ alikeCorrected: sourcedNumber, alikeChanged: sourcedNumber }),
);

import { z } from 'zod';
import { readShared } from './read-shared.js';
import { sourcedNumber } from './sourced.js';

/** Numbers of the round and its calendar. Source: shared/round.json. */
export const roundNumbers = readShared(
  'round.json',
  z.strictObject({ aheadDays: sourcedNumber, calendarKeepDays: sourcedNumber }),
);

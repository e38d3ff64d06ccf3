import { z } from 'zod';
import { readShared } from './read-shared.js';
import { address } from './sourced.js';

const standingWord = z.strictObject({ key: z.string(), address });
/** A sentence that stands in every book; its words are under `caution.KEY`. */
export type StandingWordEntry = z.infer<typeof standingWord>;

/**
 * The words that go in every book, each with what it rests on: cautions, before she travels, at the footbath,
 * between farms.
 *
 * Source:  shared/standing-words.json
 * Checked: tests/schedule/shared-data.test.ts
 */
export const standingWords = readShared(
  'standing-words.json',
  z.strictObject({
    cautions: z.array(standingWord),
    travel: z.array(standingWord),
    footbath: z.array(standingWord),
    betweenFarms: z.array(standingWord),
  }),
);

import { z } from 'zod';
import { readShared } from './read-shared.js';
import { address } from './sourced.js';
import { noticeRuleIds } from './notices.js';

const standingWord = z.strictObject({ key: z.string(), address });

/** A sentence that is in every book; its words are under `caution.KEY`. */
export type StandingWordEntry = z.infer<typeof standingWord>;

/**
 * The words that go in every book, each with what it is based on: cautions, before she travels, at the footbath, when a
 * block comes off early, between farms. And the rules of `notices.json` whose sign the farm itself may come to
 * see on any cow, and rings for at once.
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
    blockEarly: z.array(standingWord),
    farmSigns: z.array(z.enum(noticeRuleIds)),
    betweenFarms: z.array(standingWord),
  }),
);

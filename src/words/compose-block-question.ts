import type { BlockQuestion } from '../healing/block-question.js';
import { dayInWords } from './day-in-words.js';
import { placeInWords } from './lesion-in-words.js';
import type { Words } from './words.js';

/**
 * What the record of the blocks leaves in doubt, as a question to who lifts her next.
 *
 * Checked: tests/words/situations.test.ts
 */
export function blockQuestionInWords(words: Words, { what, date, foot, claw }: BlockQuestion): string {
  return words.say(`blocks.${what}`, {
    foot: placeInWords(words, foot),
    place: placeInWords(words, foot, claw),
    day: dayInWords(words, date),
  });
}

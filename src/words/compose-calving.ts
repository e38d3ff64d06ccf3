import type { CalvingNear } from '../schedule/calving.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import type { Words } from './words.js';

/** That she is close to calving, in a few words. @example calvingInShort(wordsOf('en-GB'), { due: '2026-12-01', heifer: true }) // → 'heifer, due to calve 1 December 2026' */
export function calvingInShort(words: Words, { due, heifer }: CalvingNear): string {
  if (due === undefined) return words.say('calving.heifer');
  return words.say(`calving.${heifer ? 'heifer-due' : 'due'}`, { day: dayInWords(words, due) });
}

/** The same with how she may be lifted. */
export function calvingInWords(words: Words, near: CalvingNear): string {
  return paragraph(
    words.say('calving.line', { near: calvingInShort(words, near) }),
    words.say('calving.lift'),
  );
}

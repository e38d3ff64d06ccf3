import type { Claw, Foot } from '../record/words.js';
import type { Words } from '../words/words.js';

/** @example placeInWords('LH', 'outer', words) // → 'left hind, outer claw' */
export function placeInWords(foot: Foot, claw: Claw | undefined, words: Words): string {
  const named = words.say(`vocabulary.foot.${foot}`);
  return claw === undefined
    ? named
    : words.say('vocabulary.place', { foot: named, claw: words.say(`vocabulary.claw.${claw}`) });
}

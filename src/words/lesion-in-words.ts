import type { Claw, Foot, LesionCode } from '../record/words.js';
import { lesionKinds } from '../reference/lesions.js';
import type { Words } from './words.js';

/** A foot, or one claw of it. @example placeInWords(wordsOf('en-GB'), 'LH', 'outer') // → 'left hind, outer claw' */
export function placeInWords(words: Words, foot: Foot, claw?: Claw): string {
  const footName = words.say(`vocabulary.foot.${foot}`);
  return claw
    ? words.say('vocabulary.place', { foot: footName, claw: words.say(`vocabulary.claw.${claw}`) })
    : footName;
}

/** Full name first, the code in brackets. @example lesionInWords(wordsOf('en-GB'), 'WL') // → 'white line disease (WL)' */
export function lesionInWords(words: Words, code: LesionCode): string {
  return words.say('vocabulary.lesion', { name: lesionKinds[code].name, code });
}

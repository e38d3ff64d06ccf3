import { isOpenStanding, standingChip } from '../words/compose-standing.js';
import { lesionInWords, placeInWords } from '../words/lesion-in-words.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './placed-case.js';

/**
 * Her lesions by name and place, one line each, healed ones last: left hind, outer claw, white line disease (WL).
 *
 * Full name first, the code in brackets; the short name leads, since the readings below go by it.
 */
export function lesionLines(words: Words, { record, standing }: PlacedCase): string[] {
  return standing.lesions
    .toSorted((a, b) => Number(!isOpenStanding(a)) - Number(!isOpenStanding(b)))
    .flatMap((one) => {
      const { lesion, code } = one;
      const declared = record.animal.lesions[lesion];
      if (!declared) return [];
      return [
        words.say(isOpenStanding(one) ? 'book.lesions.line-of' : 'book.lesions.line-over', {
          name: lesion,
          lesion: lesionInWords(words, code),
          place: placeInWords(words, declared.foot, declared.claw),
          stands: standingChip(words, one).toLowerCase(),
        }),
      ];
    });
}

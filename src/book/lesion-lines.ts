import type { StandingWord } from '../healing/standing.js';
import { standingChip } from '../words/compose-standing.js';
import { lesionInWords, placeInWords } from '../words/lesion-in-words.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './case-work.js';

/**
 * Her lesions by name and place, one line each, healed ones last: left hind, outer claw, white line disease (WL).
 *
 * Full name first, the code in brackets; the short name leads, since the readings below go by it.
 */
export function lesionLines(words: Words, { record, standing }: PlacedCase): string[] {
  return standing.lesions
    .toSorted((a, b) => Number(isOver(a.standing)) - Number(isOver(b.standing)))
    .flatMap(({ lesion, code, standing: how }) => {
      const declared = record.animal.lesions[lesion];
      if (!declared) return [];
      return [
        words.say(isOver(how) ? 'book.lesions.line-over' : 'book.lesions.line-of', {
          name: lesion,
          lesion: lesionInWords(words, code),
          place: placeInWords(words, declared.foot, declared.claw),
          stands: standingChip(words, how).toLowerCase(),
        }),
      ];
    });
}

function isOver(how: StandingWord): boolean {
  return how === 'healed' || how === 'joined';
}

import type { Words } from '../../words/words.js';
import type { ToBring } from '../to-bring.js';

/** What to bring, in a sentence. @example bringSentence(wordsOf('en-GB'), { blocks: [], wraps: 2 }) // → 'To bring: blocks: none; wraps: 2.' */
export function bringSentence(words: Words, { blocks, wraps }: ToBring): string {
  if (blocks.length === 0 && wraps === 0) return words.say('round.bring-nothing');
  const kinds = blocks.map(({ material, count }) =>
    words.say('round.bring-kind', {
      count,
      material: words.say(
        material === 'not-written' ? 'round.material-not-written' : `vocabulary.material.${material}`,
      ),
    }),
  );
  return words.say('round.bring', {
    blocks: kinds.length === 0 ? words.say('round.bring-none') : kinds.join(', '),
    wraps: wraps === 0 ? words.say('round.bring-none') : wraps,
  });
}

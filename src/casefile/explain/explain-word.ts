import { nearestWord } from '../nearest-word.js';
import { shown, wordsInRow } from '../shown.js';
import { otherWord } from '../other-words.js';
import type { Said } from './said.js';

/** Most words listed in the first line of a message; a longer list follows in `mend:`. */
const fewWords = 8;

/** Why a value is not one of a closed list of words, with the word most likely meant. */
export function explainWord(name: string, words: readonly string[], value: unknown): Said {
  const meant = typeof value === 'string' ? wordMeant(value, words) : undefined;
  const few = words.length <= fewWords;
  const expected = few ? wordsInRow(words) : `one of its ${words.length} words`;
  const list = `the words are ${wordsInRow(words)}`;
  const mend =
    meant === undefined
      ? few
        ? 'write one of these words'
        : list
      : `write \`${meant}\`${few ? '' : `; ${list}`}`;
  return {
    id: 'value/unknown-word',
    message: `${name} is ${shown(value)}, expected ${expected}${meant === undefined ? '' : `: did you mean \`${meant}\`?`}`,
    mend,
  };
}

function wordMeant(value: string, words: readonly string[]): string | undefined {
  const other = otherWord('words', value);
  return other !== undefined && words.includes(other) ? other : nearestWord(value, words);
}

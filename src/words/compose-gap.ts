import type { Animal } from '../record/animal.js';
import type { Gap } from '../schedule/gap.js';
import { valuesInWords } from './values-in-words.js';
import type { Words } from './words.js';

/** A gap in words: what is missing, and how to close it. */
export interface GapInWords {
  readonly message: string;
  readonly close: string;
}

/**
 * What the record does not hold, and how to close it.
 *
 * Checked: tests/words/situations.test.ts
 */
export function gapInWords(words: Words, animal: Animal | undefined, gap: Gap): GapInWords {
  const name = gap.id.slice('gap/'.length);
  const variant = gap.values['which'] ?? (gap.values['what'] === 'width' ? 'width' : undefined);
  const key = (part: string) => {
    const own = `gap.${name}.${part}-${variant}`;
    return variant !== undefined && words.has(own) ? own : `gap.${name}.${part}`;
  };
  const values = {
    ...valuesInWords(words, animal ?? nobody, gap.values),
    ...(typeof gap.values['days'] === 'number' ? { count: gap.values['days'] } : {}),
    ...wordOf(words, 'task', gap.values['task']),
    ...wordOf(words, 'result', gap.values['result']),
    ...wordOf(words, 'view', gap.values['view']),
  };
  return { message: words.say(key('message'), values), close: words.say(key('close'), values) };
}

const nobody: Animal = { casefile: 1, animal: '-', lesions: {}, visits: [] };

function wordOf(
  words: Words,
  list: 'task' | 'view' | 'result',
  word: string | number | undefined,
): Record<string, string> {
  return word === undefined || word === '' ? {} : { [list]: words.say(`vocabulary.${list}.${word}`) };
}

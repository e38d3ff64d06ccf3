import type { Words } from '../words/words.js';
import type { Fact } from './page-parts.js';

/** A fact where there is something to say; absent is unknown and leaves no line. */
export function fact(words: Words, labelKey: string, value: string | undefined): Fact[] {
  return value === undefined || value === '' ? [] : [{ label: words.say(labelKey), value }];
}

/** What was said of one thing, in a row: parts that are missing leave no mark. @example phrase('open', undefined, 'tape') // → 'open; tape' */
export function phrase(...parts: readonly (string | undefined | false)[]): string {
  return parts.filter((part): part is string => typeof part === 'string' && part !== '').join('; ');
}

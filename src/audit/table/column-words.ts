import type { Words } from '../../words/words.js';

/** A column's heading on the page: the table's own where it has one, else what the name means in every table. */
export function columnHead(words: Words, table: string, column: string): string {
  return words.say(keyOf(words, table, column, 'head'));
}

/** What a column means, for the dictionary. */
export function columnMeaning(words: Words, table: string, column: string): string {
  return words.say(keyOf(words, table, column, 'means'));
}

function keyOf(words: Words, table: string, column: string, part: 'head' | 'means'): string {
  const own = `audit.column.${table}.${column}.${part}`;
  return words.has(own) ? own : `audit.column.every.${column}.${part}`;
}

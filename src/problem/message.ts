import { messageWords, untold, type Values } from '../reference/words.js';
import type { Message, Problem, Severity } from './problem.js';

/**
 * The two sentences of a problem out of `shared/words/messages.en-GB.json`, with what was found and expected in them.
 *
 * `way` names one of several ways a problem comes about; a sentence that does not differ by it is under the id alone.
 *
 * Error:   RangeError where the words lack a sentence or a value
 * Checked: tests/problem/message.test.ts
 */
export function messageOf(id: string, values: Values = {}, way?: string): Message {
  const words = messageWords();
  const say = (part: string): string => {
    const own = `problem.${id}.${way}.${part}`;
    const isOwn = way !== undefined && ['', '.one', '.other'].some((form) => words.has(own + form));
    return words.say(isOwn ? own : `problem.${id}.${part}`, values);
  };
  return { id, message: say('message'), mend: say('fix') };
}

/** A problem with a whole file or folder, in its words. */
export function problemIn(
  file: string,
  id: string,
  values?: Values,
  { way, severity = 'error' }: { readonly way?: string; readonly severity?: Severity } = {},
): Problem {
  const { message, mend } = messageOf(id, values, way);
  return { id, severity, file, message, mend };
}

/** A sentence for the terminal, by its key under `terminal`. */
export function terminal(key: string, values?: Values): string {
  return untold(messageWords().say(`terminal.${key}`, values));
}

/**
 * Words in a row, with commas and the last word of the row before the last.
 * @example inRow('or', ['open', 'covered', 'healed']) // → 'open, covered or healed'
 */
export function inRow(last: 'and' | 'comma' | 'or', words: Iterable<string>): string {
  const all = [...words];
  if (all.length < 2) return all.join('');
  const say = (key: string, first: string, second: string): string =>
    messageWords().say(`row.${key}`, { first, second });
  return say(
    last,
    all.slice(0, -1).reduce((first, second) => say('comma', first, second)),
    all.at(-1)!,
  );
}

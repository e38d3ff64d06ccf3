import { shown } from '../finding.js';
import { caseFormat } from '../../record/animal.js';

/** The words of a trouble without its place: what was found and expected, and how to mend it. */
export interface Said {
  readonly id: string;
  readonly message: string;
  readonly mend: string;
}

/** A sign or a word for "not known" as a value: absent is the way to say so. */
export function notKnown(name: string, value: unknown, expected = 'a value, or no such key'): Said {
  return {
    id: 'value/not-known',
    message: `${name} is ${shown(value)}, expected ${expected}`,
    mend: 'leave the key out where it was not scored, measured or is not known; why can stand in `note`',
  };
}

/** The same where leaving the key out will not do: it must stand, or the value is an entry of a list. */
export function mustStand(
  said: Said,
  { required, entry }: { readonly required: boolean; readonly entry: boolean },
): Said {
  if (said.id !== 'value/not-known' || !(required || entry)) return said;
  const mend = entry
    ? 'leave the entry out where it is not known'
    : 'this key must be there: write what it was';
  return { ...said, message: said.message.replace(', or no such key', ''), mend };
}

/** A file from a later Growdown: nothing is wrong with it, and writing an older number into it would make it wrong. */
export function newerFormat(name: string, version: number): Said {
  return {
    id: 'value/format-newer',
    message: `${name} is \`${version}\`, a later version of the case format than this program reads, expected ${caseFormat} or less`,
    mend: 'leave the file as it is and read it with a newer Growdown',
  };
}

/** ` #` in text without quotes: YAML would take the rest for a comment, and it would be lost. */
export function commentInText(name: string, comment: string): Said {
  return {
    id: 'yaml/comment-in-text',
    message: `${shown(comment.trim())} begins a comment and would be lost from \`${name}\`, expected text in quotes`,
    mend: 'put the whole text between straight quotes; a comment of your own goes on a line by itself',
  };
}

import { shown } from '../shown.js';
import type { Said } from './said.js';

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

import { z } from 'zod';
import { lesionKinds } from '../reference/lesions.js';
import { readShared } from '../reference/read-shared.js';
import { lesionCodes } from '../record/words.js';

const shape = z.strictObject({
  about: z.string(),
  keys: z.record(z.string(), z.string()),
  words: z.record(z.string(), z.string()),
});

let read:
  { readonly keys: ReadonlyMap<string, string>; readonly words: ReadonlyMap<string, string> } | undefined;

/** What a word or key from another mouth is called here; undefined where it could mean more than one thing. */
export function otherWord(of: 'keys' | 'words', written: string): string | undefined {
  read ??= load();
  return read[of].get(written.trim().toLowerCase().replaceAll('_', '-'));
}

function load(): NonNullable<typeof read> {
  const { keys, words } = readShared('other-words.json', shape);
  const byName = lesionCodes.map((code): [string, string] => [lesionKinds[code].name.toLowerCase(), code]);
  return { keys: lower(keys), words: new Map([...byName, ...lower(words)]) };
}

function lower(table: Record<string, string>): Map<string, string> {
  return new Map(Object.entries(table).map(([word, meant]) => [word.toLowerCase(), meant]));
}

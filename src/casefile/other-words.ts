import { z } from 'zod';
import { lesionKinds } from '../reference/lesions.js';
import { readShared } from '../reference/read-shared.js';
import { lesionCodes } from '../record/words.js';

const shape = z.strictObject({
  about: z.string(),
  keys: z.record(z.string(), z.string()),
  words: z.record(z.string(), z.string()),
  /** By the pattern of a group, then by a key that belongs elsewhere: the group's own key for it, and how to say so. */
  instead: z.record(z.string(), z.record(z.string(), z.tuple([z.string(), z.string()]))),
  'not-known': z.array(z.string()),
});

interface OtherWords {
  readonly keys: ReadonlyMap<string, string>;
  readonly words: ReadonlyMap<string, string>;
  readonly instead: z.output<typeof shape>['instead'];
  readonly notKnown: ReadonlySet<string>;
}

let read: OtherWords | undefined;

/** What a word or key from another mouth is called here; undefined where it could mean more than one thing. */
export function otherWord(of: 'keys' | 'words', written: string): string | undefined {
  read ??= load();
  return read[of].get(written.trim().toLowerCase().replaceAll('_', '-'));
}

/** The key a group has of its own for one that belongs to another group, and the sentence that says so. */
export function keyInstead(pattern: string, key: string): { key: string; mend: string } | undefined {
  read ??= load();
  const own = Object.hasOwn(read.instead, pattern) ? read.instead[pattern] : undefined;
  const [near, mend] = own && Object.hasOwn(own, key) ? (own[key] ?? []) : [];
  return near === undefined || mend === undefined ? undefined : { key: near, mend };
}

/** Whether somebody wrote that there is nothing to write: a dash, a question mark, `n/a`, `none`. */
export function saysNotKnown(written: string): boolean {
  read ??= load();
  return read.notKnown.has(written.trim().toLowerCase());
}

function load(): OtherWords {
  const { keys, words, instead, 'not-known': notKnown } = readShared('other-words.json', shape);
  const byName = lesionCodes.map((code): [string, string] => [lesionKinds[code].name.toLowerCase(), code]);
  return {
    keys: lower(keys),
    words: new Map([...byName, ...lower(words)]),
    instead,
    notKnown: new Set(notKnown),
  };
}

function lower(table: Record<string, string>): Map<string, string> {
  return new Map(Object.entries(table).map(([word, meant]) => [word.toLowerCase(), meant]));
}

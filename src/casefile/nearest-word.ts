import { z } from 'zod';
import { lesionKinds } from '../reference/lesions.js';
import { readShared } from '../reference/read-shared.js';
import { lesionCodes } from '../record/words.js';

/**
 * The word of a list that was most likely meant, or undefined where none is near.
 *
 * Near: the same letters in other capitals or with other joins; or about a third of its letters wrong at most. Of two
 * equally near the one with the same first letter.
 *
 * @example nearestWord('Outer', ['inner', 'outer']) // → 'outer'
 * @example nearestWord('recheque', ['recheck', 'routine']) // → 'recheck'
 */
export function nearestWord(written: string, words: readonly string[]): string | undefined {
  const bare = bareLetters(written);
  const same = words.find((word) => bareLetters(word) === bare);
  if (same !== undefined) return same;
  if (bare.length > 40) return undefined;
  let best: { readonly word: string; readonly off: number } | undefined;
  for (const word of words) {
    const letters = bareLetters(word);
    const distance = editDistance(bare, letters);
    const near = distance <= Math.ceil(Math.max(bare.length, letters.length) / 3);
    if (!near || distance >= Math.min(bare.length, letters.length)) continue;
    const off = distance + (bare[0] === letters[0] ? 0 : 0.5);
    if (off < (best?.off ?? Infinity)) best = { word, off };
  }
  return best?.word;
}

function bareLetters(word: string): string {
  return word.toLowerCase().replaceAll(/[\s_-]+/g, '');
}

/** Letters put in, left out, changed, or two neighbours swapped: each counts one. */
function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let row = 1; row <= a.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const changed = (last[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      let cost = Math.min(changed, (last[column] ?? 0) + 1, (now[column - 1] ?? 0) + 1);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, (beforeLast[column - 2] ?? 0) + 1);
      }
      now.push(cost);
    }
    beforeLast = last;
    last = now;
  }
  return last[b.length] ?? 0;
}

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

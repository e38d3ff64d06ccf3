import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';
import type { Language } from '../record/words.js';
import { type Words, wordsFrom } from './words-from.js';

export type { Values, Words } from './words-from.js';

type Tree = { readonly [key: string]: string | Tree };
const tree: z.ZodType<Tree> = z.record(
  z.string(),
  z.lazy(() => z.union([z.string(), tree])),
);

const loaded = new Map<Language, Words>();

/** The words of a language. American English is British English with the strings of its own file laid over it. */
export function wordsOf(language: Language): Words {
  const known = loaded.get(language);
  if (known) return known;
  const strings = new Map(readLanguage('en-GB'));
  if (language !== 'en-GB') for (const [key, string] of readLanguage(language)) strings.set(key, string);
  const words = wordsFrom(language, strings);
  loaded.set(language, words);
  return words;
}

/** A language's own strings: `shared/words/LANGUAGE.json`, keyed `area.…`. */
export function readLanguage(language: Language): [string, string][] {
  return Object.entries(readShared(`words/${language}.json`, z.record(z.string(), tree))).flatMap(
    ([area, branch]) => flatten(area, branch),
  );
}

function flatten(prefix: string, branch: Tree): [string, string][] {
  return Object.entries(branch).flatMap(([key, value]): [string, string][] =>
    typeof value === 'string' ? [[`${prefix}.${key}`, value]] : flatten(`${prefix}.${key}`, value),
  );
}

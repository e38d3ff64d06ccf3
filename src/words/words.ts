import { readdirSync } from 'node:fs';
import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';
import type { Language } from '../record/words.js';

type Tree = { readonly [key: string]: string | Tree };
const tree: z.ZodType<Tree> = z.record(
  z.string(),
  z.lazy(() => z.union([z.string(), tree])),
);

/** What stands in a string's `{gaps}`. */
export type Values = Readonly<Record<string, string | number>>;

/** One language's words: every string a reader sees, by a dotted key such as `standing.growing-down`. */
export interface Words {
  readonly language: Language;
  /**
   * The string under a key with its gaps filled. With `count` among the values, `key.one` or `key.other` is taken
   * where the key itself is no string. Throws on an unknown key or an unfilled gap: both are slips of ours.
   */
  readonly say: (key: string, values?: Values) => string;
  readonly has: (key: string) => boolean;
  /** Every key, sorted. */
  readonly keys: readonly string[];
}

const loaded = new Map<Language, Words>();

/** A string cut at its gaps: text, name of a gap, text, … */
type Template = readonly string[];

/** The words of a language. American English is British English with the strings of its own folder laid over it. */
export function wordsOf(language: Language): Words {
  const known = loaded.get(language);
  if (known) return known;
  const strings = new Map(readLanguage('en-GB'));
  if (language !== 'en-GB') for (const [key, string] of readLanguage(language)) strings.set(key, string);
  const templates = new Map<string, Template>();
  for (const [key, string] of strings) templates.set(key, string.split(/\{([a-zA-Z]+)\}/));
  const words: Words = {
    language,
    say: (key, values = {}) => fill(key, lookUp(templates, key, values), values),
    has: (key) => strings.has(key),
    keys: [...strings.keys()].sort(),
  };
  loaded.set(language, words);
  return words;
}

/** A language's own strings: `shared/words/LANGUAGE/AREA.json`, keyed `area.…`. */
export function readLanguage(language: Language): [string, string][] {
  const names = readdirSync(new URL(`../../shared/words/${language}/`, import.meta.url)).sort();
  return names
    .filter((name) => name.endsWith('.json'))
    .flatMap((name) =>
      flatten(name.slice(0, -'.json'.length), readShared(`words/${language}/${name}`, tree)),
    );
}

function flatten(prefix: string, branch: Tree): [string, string][] {
  return Object.entries(branch).flatMap(([key, value]): [string, string][] =>
    typeof value === 'string' ? [[`${prefix}.${key}`, value]] : flatten(`${prefix}.${key}`, value),
  );
}

function lookUp(templates: ReadonlyMap<string, Template>, key: string, values: Values): Template {
  const whole = templates.get(key);
  if (whole !== undefined) return whole;
  const count = values['count'];
  const plural = count === undefined ? undefined : templates.get(count === 1 ? `${key}.one` : `${key}.other`);
  if (plural === undefined) throw new RangeError(`no words for "${key}"`);
  return plural;
}

function fill(key: string, template: Template, values: Values): string {
  let said = template[0]!;
  for (let at = 1; at < template.length; at += 2) {
    const value = values[template[at]!];
    if (value === undefined) throw new RangeError(`"${key}" wants a value for {${template[at]}}`);
    said += `${value}${template[at + 1]}`;
  }
  return said;
}

import type { Language } from '../record/words.js';

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
  /** The string under a key with its gaps open. */
  readonly template: (key: string) => string;
}

/** A string cut at its gaps: text, name of a gap, text, … */
type Template = readonly string[];

/** A language's words out of its strings, wherever those come from. */
export function wordsFrom(language: Language, strings: ReadonlyMap<string, string>): Words {
  const templates = new Map<string, Template>();
  for (const [key, string] of strings) templates.set(key, string.split(/\{([a-zA-Z]+)\}/));
  return {
    language,
    say: (key, values = {}) => fill(key, lookUp(templates, key, values), values),
    has: (key) => strings.has(key),
    keys: [...strings.keys()].sort(),
    template: (key) => {
      const string = strings.get(key);
      if (string === undefined) throw new RangeError(`no words for "${key}"`);
      return string;
    },
  };
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

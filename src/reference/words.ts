import { z } from 'zod';
import { type Language, staffLanguages } from '../record/words.js';
import { signsShown } from '../record/signs.js';
import { readShared } from './read-shared.js';

/** What is in a string's `{gaps}`. */
export type Values = Readonly<Record<string, string | number>>;

/** One language's words: every string a reader sees, by a dotted key such as `standing.growing-down`. */
export interface Words {
  readonly language: Language;
  /**
   * The string under a key with its gaps filled. Where the key itself is no string, the form that the language's plural
   * rules take for the `count` among the values (`key.one`, `key.few` …), else `key.other`.
   *
   * Error:   RangeError on an unknown key or an unfilled gap: both are slips of ours
   */
  readonly say: (key: string, values?: Values) => string;
  readonly has: (key: string) => boolean;
  /** A number, or its digits as written, with the decimal sign of the language. */
  readonly number: (value: number | string) => string;
  /** Things in a row, as the language parts them; what is absent or empty leaves no mark. */
  readonly commas: InRow;
  readonly dots: InRow;
  readonly semicolons: InRow;
  /** Every key, sorted. */
  readonly keys: readonly string[];
  /** The string under a key with its gaps open. */
  readonly template: (key: string) => string;
}

/**
 * What a record says, marked as such on its way to a page: in the signs of Unicode that keep its direction of writing to
 * itself, which the page shows as `<bdi>`. Signs of its own are taken out first, so that no text can end its mark.
 *
 * @example told('Quernholt') // → '\u2068Quernholt\u2069'
 * Checked: tests/reference/words.test.ts
 */
export function told<T extends string | undefined>(text: T): T {
  return (text ? `\u2068${signsShown(untold(text))}\u2069` : text) as T;
}

/** Text without those marks, for what is no page. */
export function untold(text: string): string {
  return text.replaceAll(/[\u2068\u2069]/g, '');
}

type InRow = (parts: readonly (string | number | undefined | false)[] | undefined) => string;

/**
 * A language's words out of its strings, wherever those come from.
 *
 * Checked: tests/reference/words.test.ts
 */
export function wordsFrom(language: Language, strings: ReadonlyMap<string, string>): Words {
  /** Strings cut at their gaps: text, name of a gap, text, … */
  const templates = new Map<string, readonly string[]>();
  const templateOf = (key: string): readonly string[] | undefined => {
    const string = templates.has(key) ? undefined : strings.get(key);
    if (string !== undefined) templates.set(key, string.split(/\{([a-zA-Z]+)\}/));
    return templates.get(key);
  };
  const rules = new Intl.PluralRules(language);
  const forms = new Map<number, string>();
  const formOf = (count: number): string => {
    const form = forms.get(count) ?? rules.select(count);
    forms.set(count, form);
    return form;
  };
  const decimal = strings.get('number.decimal') ?? '.';
  const number: Words['number'] = (value) => String(value).replace('.', decimal);
  const say: Words['say'] = (key, values = {}) => {
    const count = values['count'];
    const form = count === undefined || strings.has(key) ? '' : `.${formOf(Number(count))}`;
    const template = templateOf(key + form) ?? (count === undefined ? undefined : templateOf(`${key}.other`));
    if (template === undefined) throw new RangeError(`no words for "${key}"`);
    let said = template[0]!;
    for (let at = 1; at < template.length; at += 2) {
      const value = values[template[at]!];
      if (value === undefined) throw new RangeError(`"${key}" wants a value for {${template[at]}}`);
      said += `${typeof value === 'number' ? number(value) : value}${template[at + 1]}`;
    }
    return said;
  };
  const inRow =
    (by: string): InRow =>
    (parts = []) => {
      const said = parts.flatMap((part) => (part === undefined || part === false || part === '' ? [] : part));
      return said.length === 0 ? '' : `${said.reduce((first, second) => say(by, { first, second }))}`;
    };
  return {
    language,
    say,
    number,
    commas: inRow('row.comma'),
    dots: inRow('row.dot'),
    semicolons: inRow('row.semicolon'),
    has: (key) => strings.has(key),
    keys: [...strings.keys()].sort(),
    template: (key) => {
      const string = strings.get(key);
      if (string === undefined) throw new RangeError(`no words for "${key}"`);
      return string;
    },
  };
}

/** Where a key of the record is described: see `KeyPlace` in the record. */
type ToldIn = 'says' | 'form' | 'sheet' | 'ask' | 'more' | 'log';

/**
 * Under which key the words say this of a key of the record: of several the one with the longest end of the way to it,
 * `products.on` before `on`; undefined where nothing is said.
 *
 * Checked: tests/exchange/dictionary.test.ts
 */
export function saidAt(words: Words, place: ToldIn, way: string): string | undefined {
  const parts = way.split('.');
  return parts
    .map((_, at) => `key.${parts.slice(at).join('.')}.${place}`)
    .find((key) => words.has(key) || words.has(`${key}.true`));
}

const loaded = new Map<Language, Words>();

/**
 * The words of a language. American English is British English with the strings of its own file laid over it; a language
 * of the staff has what their list says, and nothing beneath it.
 */
export function wordsOf(language: Language): Words {
  const known = loaded.get(language);
  if (known) return known;
  const isStaffs = staffLanguages.some((one) => one === language);
  const strings = new Map(readStrings(isStaffs ? `staff-${language}` : language));
  if (language === 'en-US')
    for (const [key, string] of readStrings('en-GB')) if (!strings.has(key)) strings.set(key, string);
  const words = wordsFrom(language, strings);
  loaded.set(language, words);
  return words;
}

let messages: Words | undefined;

/** What is said at a terminal and of what is wrong: `problem.ID.message`, `problem.ID.fix`, and `terminal.…`. */
export function messageWords(): Words {
  messages ??= wordsFrom('en-GB', new Map(readStrings('messages.en-GB')));
  return messages;
}

/** The strings of one file, `shared/words/NAME.json`, keyed `area.…`. Error: RangeError on what is neither string nor branch */
export function readStrings(name: string): [string, string][] {
  return flatten('', readShared(`words/${name}.json`, z.unknown()));
}

function flatten(key: string, value: unknown): [string, string][] {
  if (typeof value === 'string') return [[key, value]];
  if (typeof value !== 'object' || value === null) throw new RangeError(`no words at "${key}"`);
  return Object.entries(value).flatMap(([part, branch]) =>
    flatten(key === '' ? part : `${key}.${part}`, branch),
  );
}

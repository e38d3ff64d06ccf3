import { lesionCodes } from '../record/words.js';
import { lesionKinds } from '../reference/lesions.js';
import { noteWords } from './note-words.js';
import type { Token } from './token.js';

/** What stands at a place of a note, by the list of words: `kind` says which statement it belongs to, `value` its meaning. */
export interface Phrase {
  readonly kind: string;
  readonly value: string;
  /** The first token after it. */
  readonly next: number;
}

interface Entry {
  readonly kind: string;
  readonly value: string;
  readonly words: readonly string[];
}

type Dictionary = ReadonlyMap<string, readonly Entry[]>;

const anywhere = dictionaryOf({
  ...noteWords.phrases,
  lesion: withNames(noteWords.phrases['lesion'] ?? {}),
});
const inside = new Map(
  Object.entries(noteWords.inside).map(([kind, values]) => [kind, dictionaryOf({ [kind]: values })]),
);
const innerFillers = new Set(noteWords['inner-fillers']);

/** Every kind of lesion may be called by its full name. */
function withNames(values: Readonly<Record<string, readonly string[]>>): Record<string, readonly string[]> {
  const named: Record<string, readonly string[]> = { ...values };
  const said = new Set(Object.values(values).flat());
  for (const code of lesionCodes) {
    const name = bareName(lesionKinds[code].name);
    if (!said.has(name)) named[code] = [...(named[code] ?? []), name];
  }
  return named;
}

function bareName(name: string): string {
  return name
    .replaceAll(/[^a-z ]/g, ' ')
    .replaceAll(/ +/g, ' ')
    .trim();
}

function dictionaryOf(
  kinds: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>,
): Dictionary {
  const byFirst = new Map<string, Entry[]>();
  for (const [kind, values] of Object.entries(kinds))
    for (const [value, said] of Object.entries(values))
      for (const phrase of said) {
        const words = phrase.split(' ');
        byFirst.set(words[0]!, [...(byFirst.get(words[0]!) ?? []), { kind, value, words }]);
      }
  for (const list of byFirst.values()) list.sort((a, b) => b.words.length - a.words.length);
  return byFirst;
}

/**
 * The longest phrase of the list that begins at a token; undefined where none does.
 *
 * Inside a phrase a hyphen or a stroke counts as a space, and `the`, `her` and the like are passed over: `took the
 * block off` is `took block off`. Codes of lesions are taken in capitals only: `cc` is a measure of volume.
 */
export function phraseAt(tokens: readonly Token[], at: number, only?: string): Phrase | undefined {
  const first = tokens[at];
  if (first?.kind !== 'word' && first?.kind !== 'number') return undefined;
  const dictionary = only === undefined ? anywhere : inside.get(only);
  if (!dictionary) throw new RangeError(`no such list of words: ${only}`);
  for (const { kind, value, words } of dictionary.get(first.bare) ?? []) {
    const next = endOf(tokens, at, words);
    if (next !== undefined) return { kind, value, next };
  }
  const code = only === undefined ? lesionCodes.find((one) => one === first.text) : undefined;
  return code && { kind: 'lesion', value: code, next: at + 1 };
}

function endOf(tokens: readonly Token[], at: number, words: readonly string[]): number | undefined {
  let next = at + 1;
  for (const word of words.slice(1)) {
    while (joins(tokens, next) || (tokens[next]?.bare !== word && innerFillers.has(tokens[next]?.bare ?? '')))
      next += 1;
    const token = tokens[next];
    if (token?.bare !== word || token.kind === 'quoted') return undefined;
    next += 1;
  }
  return next;
}

/** A hyphen or a stroke glued between two words. */
function joins(tokens: readonly Token[], at: number): boolean {
  const token = tokens[at];
  return (
    token?.kind === 'mark' &&
    /^[-–/]$/.test(token.text) &&
    tokens[at - 1]?.to === token.from &&
    tokens[at + 1]?.from === token.to
  );
}

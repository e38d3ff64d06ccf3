import { isGroup } from '../as-wanted.js';
import type { Wanted } from '../wanted.js';
import type { Said } from './said.js';

/** Keys that stand beside the key they belong under, which therefore holds nothing. */
export interface NotIndented {
  /** The key that holds nothing. */
  readonly holder: string;
  /** The keys meant for it, in the order written. */
  readonly keys: readonly string[];
}

/**
 * `found:` with `a: { … }` below it in the same column: the entry becomes a key of the visit, and `found` holds nothing.
 *
 * Only keys the group does not know are looked at, and only where they follow the empty key at once. Under names of
 * the user's own choice, those declared are meant, or whatever holds keys of its own.
 */
export function notIndented(
  group: unknown,
  wanted: Wanted | undefined,
  declared: ReadonlyMap<string, string>,
): NotIndented[] {
  if (!isGroup(group) || wanted?.kind !== 'group') return [];
  const meant = new Map<string, string[]>();
  let holder: string | undefined;
  for (const [key, value] of Object.entries(group)) {
    const own = wanted.keys.get(key);
    if (own) holder = value === null ? key : undefined;
    const under = own || holder === undefined ? undefined : wanted.keys.get(holder)?.wanted;
    if (under && holder !== undefined && couldHold(under, key, value, declared))
      meant.set(holder, [...(meant.get(holder) ?? []), key]);
  }
  return [...meant].map(([each, keys]) => ({ holder: each, keys }));
}

function couldHold(
  wanted: Wanted,
  key: string,
  value: unknown,
  declared: ReadonlyMap<string, string>,
): boolean {
  if (wanted.kind === 'either') return wanted.forms.some((form) => couldHold(form, key, value, declared));
  if (wanted.kind === 'group') return wanted.keys.has(key);
  return wanted.kind === 'named' && (declared.has(key) || isGroup(value));
}

export function explainNotIndented(
  { holder, keys }: NotIndented,
  declared: ReadonlyMap<string, string>,
): Said {
  const [first = ''] = keys;
  const all = keys.map((key) => `\`${key}\``).join(', ');
  const one = keys.length === 1;
  const what = declared.get(first);
  const why =
    what !== undefined && one ? `${all} is a declared ${what}: set it` : `set ${one ? 'it' : 'them'}`;
  return {
    id: 'key/elsewhere',
    message: `${all} ${one ? 'stands' : 'stand'} beside \`${holder}\`, which holds nothing, expected under it`,
    mend: `${why} two spaces further in, under \`${holder}\`, with all that belongs there`,
  };
}

/** The names an animal's file declares, with what each is. */
export function declaredIn(record: unknown): ReadonlyMap<string, string> {
  if (!isGroup(record)) return new Map();
  const names = (key: 'lesions' | 'marks', what: string): [string, string][] =>
    isGroup(record[key]) ? Object.keys(record[key]).map((name) => [name, what]) : [];
  return new Map([...names('marks', 'mark'), ...names('lesions', 'lesion')]);
}

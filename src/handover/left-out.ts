import type { Words } from '../words/words.js';
import type { Level } from './handover-limits.js';

/** Parts of a page that can have more than there is room for. */
export type CountedPart = 'notices' | 'asks' | 'lesions' | 'marks' | 'visits' | 'treatments' | 'pictures';

/** What had no room on a page, told by its parts as they are composed. */
export interface LeftOut {
  /** Names longer than this are cut. */
  readonly nameCharacters: number;
  readonly counts: Map<CountedPart, number>;
  cutTexts: boolean;
}

/** What a page begins with, before any part has told what it had no room for. */
export function nothingLeftOut({ names }: Pick<Level, 'names'>): LeftOut {
  return { nameCharacters: names, counts: new Map(), cutTexts: false };
}

/** The first so many; how many more there are is remembered. */
export function firstOf<T>(
  leftOut: LeftOut,
  part: CountedPart,
  all: readonly T[],
  most: number,
): readonly T[] {
  if (all.length > most) leftOut.counts.set(part, all.length - most);
  return all.slice(0, most);
}

/** A text on one line, cut at a word where it is too long; that one was cut is remembered. */
export function cut(leftOut: LeftOut, text: string, most: number): string {
  const line = text.trim().replaceAll(/\s+/g, ' ');
  const characters = [...line];
  if (characters.length <= most) return line;
  leftOut.cutTexts = true;
  const kept = characters.slice(0, most).join('');
  const space = kept.lastIndexOf(' ');
  return `${(space > most / 2 ? kept.slice(0, space) : kept).trimEnd()}…`;
}

/** A name, cut only where it is longer than any name. */
export function cutName(leftOut: LeftOut, name: string): string {
  return cut(leftOut, name, leftOut.nameCharacters);
}

/** What is left out and where it stands, in a sentence. */
export function leftOutSentence(words: Words, { counts, cutTexts }: LeftOut): string {
  const items = [
    ...[...counts].map(([part, count]) => words.say(`handover.left-out.${part}`, { count })),
    ...(cutTexts ? [words.say('handover.left-out.cut')] : []),
  ];
  if (items.length === 0) return words.say('handover.left-out.nothing');
  return words.say('handover.left-out.lead', { items: items.join('; ') });
}

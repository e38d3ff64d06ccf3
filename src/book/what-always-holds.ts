import { standingWords, type StandingWordEntry } from '../reference/standing-words.js';
import type { Words } from '../words/words.js';
import type { TextList } from './page-parts.js';

/** What holds in every book, whatever is in it. */
export function whatAlwaysHolds(words: Words): TextList {
  const { footbath, betweenFarms } = standingWords;
  const { heading, items } = whatEveryFarmReads(words);
  return { heading, items: [...items, said(words, footbath), said(words, betweenFarms)] };
}

/** The part of it that goes to every farm with anything at all: cautions, before she travels, when to stop work. */
export function whatEveryFarmReads(words: Words): TextList {
  const { cautions, travel } = standingWords;
  return {
    heading: words.say('caution.heading'),
    items: [said(words, cautions), said(words, travel), words.say('book.last.reportable')],
  };
}

function said(words: Words, entries: readonly StandingWordEntry[]): string {
  return entries.map(({ key }) => words.say(`caution.${key}`)).join(' ');
}

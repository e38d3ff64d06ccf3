import type { Words } from '../words/words.js';
import type { Contents, ContentsLine } from './book-page.js';
import type { PlacedCase } from './placed-case.js';
import { lesionLines } from './lesion-lines.js';
import { animalSentence } from '../words/compose-animal.js';

/** Every animal with her standing in one plain sentence, linked, in the order of the book. */
export function composeContents(
  words: Words,
  open: readonly PlacedCase[],
  closed: readonly PlacedCase[],
  hasFootbath: boolean,
): Contents {
  const line = (one: PlacedCase): ContentsLine => ({
    href: `#${one.id}`,
    place: words.say('book.contents.place', { place: one.place }),
    number: one.record.animal.animal,
    lesions: lesionLines(words, one).join('; '),
    sentence: animalSentence(words, one.record.animal, one.standing),
  });
  return {
    heading: words.say('book.contents.heading'),
    ...(open.length + closed.length === 0 ? { empty: words.say('book.contents.empty') } : {}),
    ...(open.length > 0 ? { openHeading: words.say('book.contents.open') } : {}),
    open: open.map(line),
    ...(closed.length > 0 ? { closedHeading: words.say('book.contents.closed') } : {}),
    closed: closed.map(line),
    others: [
      { href: '#farm', text: words.say('book.contents.farm') },
      ...(hasFootbath ? [{ href: '#footbath', text: words.say('book.contents.footbath') }] : []),
      { href: '#last', text: words.say('book.contents.last') },
    ],
  };
}

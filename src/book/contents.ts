import type { Words } from '../words/words.js';
import type { Contents, ContentsLine } from './first-pages-data.js';
import type { PlacedCase } from './placed-case.js';
import { lesionLines } from './lesion-lines.js';
import { animalSentence } from '../words/compose-animal.js';

/** Every animal with her standing in one plain sentence, linked, in the order of the book. */
export function composeContents(
  words: Words,
  open: readonly PlacedCase[],
  closed: readonly PlacedCase[],
  { hasFootbath, leftOut }: { hasFootbath: boolean; leftOut: number | undefined },
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
    ...(leftOut === undefined
      ? {}
      : { leftOut: words.say(`book.contents.left-out${leftOut === 0 ? '.none' : ''}`, { count: leftOut }) }),
    ...(open.length > 0
      ? {}
      : {
          empty: words.say(
            closed.length + (leftOut ?? 0) === 0 ? 'book.contents.empty' : 'book.contents.no-open',
          ),
        }),
    ...(open.length > 0 ? { openHeading: words.say('book.contents.open') } : {}),
    open: open.map(line),
    ...(closed.length > 0 ? { closedHeading: words.say('book.contents.closed') } : {}),
    closed: closed.map(line),
    others: [
      { href: '#next', text: words.say('book.contents.first') },
      { href: '#herd', text: words.say('book.contents.herd') },
      { href: '#farm', text: words.say('book.contents.farm') },
      ...(hasFootbath ? [{ href: '#footbath', text: words.say('book.contents.footbath') }] : []),
      ...['last', 'numbers', 'sources', 'glossary', 'gaps', 'sign'].map((id) => ({
        href: `#${id}`,
        text: words.say(`book.contents.${id}`),
      })),
    ],
  };
}

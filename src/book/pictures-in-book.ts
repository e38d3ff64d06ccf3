import type { BookPictures } from '../picture/fit-pictures.js';
import type { Words } from '../words/words.js';
import type { TextList } from './page-parts.js';

/** What was done with the pictures of a book, for its last page; undefined where its records name none. */
export function picturesInBook(words: Words, pictures: BookPictures | undefined): TextList | undefined {
  if (!pictures || pictures.byFile.size === 0) return undefined;
  return {
    heading: words.say('picture.book.heading'),
    items: [...whatWasDone(words, pictures), words.say('picture.book.kept')],
  };
}

/** The same in sentences, for whoever runs the program. */
export function whatWasDone(words: Words, pictures: BookPictures): string[] {
  const { byFile, longestPx, madeSmaller, maxMb } = pictures;
  const all = [...byFile.values()];
  const count = (kind: (typeof all)[number]['kind']) => all.filter((one) => one.kind === kind).length;
  const made = count('made');
  const counted = (['left-out', 'refused', 'missing'] as const).flatMap((kind) =>
    count(kind) === 0 ? [] : [words.say(`picture.book.${kind}`, { count: count(kind), mb: maxMb })],
  );
  return [
    ...(made > 0 ? [words.say('picture.book.made', { count: made, px: longestPx })] : []),
    ...(made > 0 && madeSmaller ? [words.say('picture.book.smaller', { mb: maxMb })] : []),
    ...counted,
  ];
}

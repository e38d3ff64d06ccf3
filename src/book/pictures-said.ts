import { insteadOf } from './picture-section.js';
import { whatWasDone } from './picture-strips.js';
import { wordsOf } from '../reference/words.js';
import type { BookWithin } from './book-within.js';
import { terminal } from '../problem/message.js';

/** What was done with a book's pictures, for the line of that book; empty where it has none. */
export function picturesSaid({ pictures }: BookWithin): string {
  return pictures ? whatWasDone(wordsOf('en-GB'), pictures).join(' ') : '';
}

/** A warning for each picture that has no place in the book though a file is there, by name, and for a book too large. */
export function pictureWarnings(farm: string, { pictures, bytes }: BookWithin): string[] {
  if (!pictures) return [];
  const words = wordsOf('en-GB');
  const { maxMb } = pictures;
  const named = [...pictures.byFile].flatMap(([file, one]) =>
    one.kind === 'left-out' || one.kind === 'refused'
      ? [`${farm}/${file}: ${insteadOf(words, one, maxMb)}`]
      : [],
  );
  return bytes > maxMb * 1e6
    ? [...named, `${terminal('book.too-large', { farm, mb: (bytes / 1e6).toFixed(1), most: maxMb })}\n`]
    : named;
}

/** The same for a program. */
export function picturesCounted({ pictures }: BookWithin) {
  const all = [...(pictures?.byFile ?? [])];
  const named = (kind: string) => all.filter(([, one]) => one.kind === kind).map(([file]) => file);
  return {
    made: named('made').length,
    ...(pictures ? { longestPx: pictures.longestPx, madeSmaller: pictures.madeSmaller } : {}),
    leftOut: named('left-out'),
    refused: named('refused'),
    missing: named('missing'),
  };
}

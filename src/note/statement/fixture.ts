import type { BlockMaterial } from '../../record/words.js';
import { type Phrase, phraseAt } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';
import { readBlock } from './block.js';
import { placeBefore, toldAfter } from './fixture-told.js';
import { readWrap } from './wrap.js';

/** `wood block on inner`, `block off`, `wrap off RH`: what became of a block or a wrap. */
export function readFixture(
  r: VisitReader,
  at: number,
  phrase: Phrase,
  material?: BlockMaterial,
  start = at,
): number {
  const before = placeBefore(r, start);
  const told = toldAfter(r, { place: before, material, on: undefined, next: phrase.next }, phrase.kind);
  const from = before && r.mention ? r.mention.from : start;
  if (before && r.mention) {
    r.mention.used = true;
    r.subject = r.mention.before;
  }
  if (phrase.kind === 'block') readBlock(r, from, phrase, told);
  else readWrap(r, from, phrase, told);
  return told.next;
}

/** `wood` before `block on`. */
export function readMaterial(r: VisitReader, at: number, { value, next }: Phrase): number | undefined {
  const phrase = phraseAt(r.note.tokens, next);
  return phrase?.kind === 'block' ? readFixture(r, next, phrase, value as BlockMaterial, at) : undefined;
}

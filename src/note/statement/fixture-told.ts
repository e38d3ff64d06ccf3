import type { BlockMaterial } from '../../record/words.js';
import { pastDay } from '../day-of.js';
import { skip } from '../note-text.js';
import { phraseAt } from '../phrase.js';
import { type Place, placeSaid } from '../place-said.js';
import type { VisitReader } from '../visit-reader.js';

/** What is said of a block or a wrap besides what became of it. */
export interface FixtureTold {
  place: Omit<Place, 'next'> | undefined;
  material: BlockMaterial | undefined;
  on: string | undefined;
  next: number;
}

/** Kinds of words that make a place before them a lesion's and not a block's. */
const findings = new Set([
  'length', 'state', 'stage', 'top-found', 'sign', 'infected', 'ran-up', 'opened-further', 'lifted', 'sound',
]); // prettier-ignore

/** The place just named, if nothing was said of it and it is no lesion by its kind: `LH inner block on`. */
export function placeBefore(r: VisitReader, at: number): Omit<Place, 'next'> | undefined {
  const { mention } = r;
  if (!mention?.place || mention.used || mention.next !== at) return undefined;
  const { codes, site, mark, feet } = mention.place;
  return codes || site || mark || feet.length > 1 ? undefined : mention.place;
}

/** What follows the words for it: its place, what it is made of, the day; each once, in any order. */
export function toldAfter(r: VisitReader, told: FixtureTold, kind: string): FixtureTold {
  const { tokens } = r.note;
  for (;;) {
    const at = skip(tokens, told.next, 'on', 'the', 'of', 'to', 'in', 'a');
    const unknown = phraseAt(tokens, at, 'unknown-day');
    const day = told.on === undefined && !unknown ? pastDay(r, at) : undefined;
    const phrase = phraseAt(tokens, at);
    const place = told.place ? undefined : placeOfFixture(r, at);
    if (unknown && told.on === undefined) told = { ...told, on: 'unknown', next: unknown.next };
    else if (day) told = { ...told, on: day.day ?? 'unknown', next: day.next };
    else if (kind === 'block' && phrase?.kind === 'material' && told.material === undefined)
      told = { ...told, material: phrase.value as BlockMaterial, next: phrase.next };
    else if (place) told = { ...told, place, next: place.next };
    else return told;
  }
}

function placeOfFixture(r: VisitReader, at: number): Place | undefined {
  const place = placeSaid(r.note.tokens, at);
  if (!place || place.codes || place.site || place.mark || place.feet.length > 1) return undefined;
  const then = skip(r.note.tokens, place.next);
  if (r.note.tokens[place.next]?.text === ':') return undefined;
  const follows = phraseAt(r.note.tokens, then);
  const stage = /^m[0-4]$/.test(r.note.tokens[then]?.bare ?? '');
  return stage || findings.has(follows?.kind ?? '') ? undefined : place;
}

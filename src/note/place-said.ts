import type { Claw, Foot, LesionCode, Site } from '../record/words.js';
import { phraseAt } from './phrase.js';
import type { Token } from './token.js';

/** Where on the animal a stretch points: feet, claw, kind of lesion, site, each where said. */
export interface Place {
  readonly feet: readonly Foot[];
  /** The word `foot` was said: the foot itself is meant, not a lesion on it. */
  readonly footItself: boolean;
  readonly claw?: Claw | 'other';
  /** Codes the words for the kind may stand for. */
  readonly codes?: readonly LesionCode[];
  readonly mark: boolean;
  readonly site?: Site;
  readonly next: number;
}

const kinds = new Set(['foot', 'explicit-foot', 'claw', 'lesion', 'site', 'mark']);

/**
 * The place named from a token on: `left hind outer claw white line`, `white line LH outer`, `RH`, `notch LH inner`.
 *
 * Each part is taken once; a second foot is taken only as a list of feet (`LH and RH`) with nothing else said.
 */
export function placeSaid(tokens: readonly Token[], at: number): Place | undefined {
  const feet: Foot[] = [];
  let place: Omit<Place, 'feet' | 'next'> = { footItself: false, mark: false };
  let next = at;
  for (let from = at; ; from = joined(tokens, next)) {
    const phrase = phraseAt(tokens, from);
    if (!phrase || !kinds.has(phrase.kind) || (from === at && phrase.kind === 'explicit-foot')) break;
    const more = withPart(place, feet, phrase.kind, phrase.value);
    if (!more) break;
    place = more;
    next = phrase.next;
  }
  return next === at ? undefined : { ...place, feet, next };
}

function withPart(
  place: Omit<Place, 'feet' | 'next'>,
  feet: Foot[],
  kind: string,
  value: string,
): Omit<Place, 'feet' | 'next'> | undefined {
  if (kind === 'explicit-foot') return feet.length > 0 ? { ...place, footItself: true } : undefined;
  if (kind === 'foot') {
    const only = place.claw === undefined && !place.codes && !place.site && !place.mark && !place.footItself;
    if (feet.length > 0 && !only) return undefined;
    for (const each of value.split(' ') as Foot[]) feet.push(each);
    return place;
  }
  if (feet.length > 1 || place.footItself) return undefined;
  if (kind === 'claw') return place.claw ? undefined : { ...place, claw: value as Claw | 'other' };
  if (kind === 'site') return place.site ? undefined : { ...place, site: value as Site };
  if (place.codes || place.mark) return undefined;
  return kind === 'mark' ? { ...place, mark: true } : { ...place, codes: value.split(' ') as LesionCode[] };
}

/** Past what may stand between two parts of a place. */
function joined(tokens: readonly Token[], at: number): number {
  let next = at;
  while (['the', 'and', 'of', 'on', 'in', '&', '+', '-', '/', ','].includes(tokens[next]?.bare ?? ''))
    next += 1;
  return next;
}

import type { Claw, Foot, LesionCode, Site } from '../record/words.js';
import { phraseAt } from './phrase.js';
import { type Token, bareWord } from './token.js';
import type { Business } from '../record/business.js';
import type { FarmRecord } from '../record/practice.js';

/** Where on the animal a stretch points: feet, claw, kind of lesion, site, each where said. */
export interface PlaceSaid {
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
export function placeSaid(tokens: readonly Token[], at: number): PlaceSaid | undefined {
  const feet: Foot[] = [];
  let place: Omit<PlaceSaid, 'feet' | 'next'> = { footItself: false, mark: false };
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
  place: Omit<PlaceSaid, 'feet' | 'next'>,
  feet: Foot[],
  kind: string,
  value: string,
): Omit<PlaceSaid, 'feet' | 'next'> | undefined {
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

/** People the records name on a farm: the trimmer's own, the farm's, the vet, and whoever did or scored a visit there. */
export function peopleOf(business: Business, farm: FarmRecord | undefined): string[] {
  const visits = farm?.cases.flatMap(({ animal }) => animal.visits) ?? [];
  const named = [
    business.trimmer,
    ...(business.people ?? []).map(({ name }) => name),
    farm?.farm.contact?.name,
    farm?.farm.vet?.name,
    ...visits.flatMap((visit) => [visit.by, visit['gait-by'], visit['vet-answer']?.by]),
  ];
  return [...new Set(named.filter((name) => name !== undefined))];
}

/**
 * The name of a person that begins at a token: in quotes; somebody the records name, whole or by a first name that is
 * one person's alone; `the vet`; else up to three words with a capital. Undefined where none of these stands there.
 */
export function nameSaid(
  tokens: readonly Token[],
  at: number,
  people: readonly string[],
): { readonly name: string; readonly next: number } | undefined {
  const first = tokens[at];
  if (first?.kind === 'quoted' && first.text !== '') return { name: first.text, next: at + 1 };
  const whole = people
    .map((name) => ({ name, next: endOfName(tokens, at, name) }))
    .filter((found): found is { name: string; next: number } => found.next !== undefined)
    .sort((a, b) => b.next - a.next)[0];
  if (whole) return whole;
  const someone = phraseAt(tokens, at, 'person');
  if (someone)
    return {
      name: tokens.slice(at, someone.next).map(({ bare }) => bare).join(' '),
      next: someone.next,
    }; // prettier-ignore
  const capitals = capitalWords(tokens, at);
  const called = people.filter((name) => bareWord(name.split(' ')[0]!) === first?.bare);
  if (called.length === 1 && capitals.length <= 1) return { name: called[0]!, next: at + 1 };
  return capitals.length > 0
    ? { name: capitals.map(({ text }) => text).join(' '), next: at + capitals.length }
    : undefined;
}

/** Tokens a name covers from a place on, its dots and hyphens passed over. */
export function endOfName(tokens: readonly Token[], at: number, name: string): number | undefined {
  const wanted = bareWord(name).replaceAll(/[^\p{L}\p{N}]/gu, '');
  let said = '';
  let next = at;
  while (next < tokens.length && said.length < wanted.length) {
    const { kind, bare } = tokens[next]!;
    if (kind === 'line' || kind === 'quoted' || (said === '' && kind !== 'word' && kind !== 'number')) break;
    said += bare.replaceAll(/[^\p{L}\p{N}]/gu, '');
    next += 1;
  }
  return said !== '' && said === wanted ? next : undefined;
}

function capitalWords(tokens: readonly Token[], at: number): Token[] {
  const words: Token[] = [];
  for (let next = at; words.length < 3; next += 1) {
    const token = tokens[next];
    if (token?.kind !== 'word' || !/^\p{Lu}\p{L}/u.test(token.text)) break;
    if (phraseAt(tokens, next)?.next === next + 1) break;
    words.push(token);
  }
  return words;
}

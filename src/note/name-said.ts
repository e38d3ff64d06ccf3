import type { Business } from '../record/business.js';
import type { FarmRecord } from '../record/practice.js';
import { phraseAt } from './phrase.js';
import { bareWord, type Token } from './token.js';

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

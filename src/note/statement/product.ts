import type { ProductClass } from '../../record/words.js';
import type { ProductUse } from '../../record/visit.js';
import { pastDay, comingDay } from '../day-of.js';
import { nameAt } from '../name-of-lesion.js';
import { nameSaid } from '../place-said.js';
import { noteWords } from '../note-words.js';
import { skip } from '../note-text.js';
import { numberSaid } from '../number-said.js';
import { type Phrase, phraseAt } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';

type Part = { readonly value: Partial<ProductUse>; readonly next: number };

const called = new Set(Object.values(noteWords.phrases['called'] ?? {}).flat());

/** `sprayed with "the blue spray", batch K118, milk 4 days, meat 10 days`: stored as said, nothing suggested. */
export function readProduct(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  const start = skip(tokens, phrase.next);
  const named = chunk(r, start);
  if (!named) return undefined;
  const use: ProductUse = { product: named.text };
  let next = named.next;
  for (;;) {
    const from = skip(tokens, next);
    const key = phraseAt(tokens, from, 'product-key');
    const part = key && readPart(r, key);
    if (!part || Object.keys(part.value).some((one) => one in use)) break;
    Object.assign(use, part.value);
    next = part.next;
  }
  (r.draft.products ??= []).push(use);
  r.noteOn = (note) => (use.note = note);
  r.say(at, next, Object.entries(use).map(([key, value]) => `${key} ${value}`).join(', ')); // prettier-ignore
  return next;
}

function readPart(r: VisitReader, { value: key, next }: Phrase): Part | undefined {
  const { tokens } = r.note;
  const at = skip(tokens, next, 'is', 'of');
  switch (key) {
    case 'class': {
      const word = phraseAt(tokens, at, 'class');
      return word && { value: { class: word.value as ProductClass }, next: word.next };
    }
    case 'lesion': {
      const name = nameAt(r, called.has(tokens[at]?.bare ?? '') ? at + 1 : at);
      return name && { value: { lesion: name.name }, next: name.next };
    }
    case 'on': {
      const day = pastDay(r, at);
      return day && { value: day.day === undefined ? {} : { on: day.day }, next: day.next };
    }
    case 'until': {
      const day = comingDay(r, at);
      return day && { value: day.day === undefined ? {} : { until: day.day }, next: day.next };
    }
    case 'milk':
    case 'meat':
      return withheld(r, key, at);
    case 'after-calving': {
      const said = numberSaid(tokens, at);
      const unit = said && phraseAt(tokens, said.next, 'withheld-unit');
      if (!said || (unit && unit.value !== 'days')) return undefined;
      return { value: { 'milk-days-after-calving': said.value }, next: unit?.next ?? said.next };
    }
    case 'nil':
      return { value: { 'milk-days': 0, 'meat-days': 0 }, next };
    case 'given-by':
    case 'prescribed-by': {
      const name = nameSaid(tokens, at, r.people);
      return name && { value: { [key]: name.name }, next: name.next };
    }
    case 'cost': {
      const said = numberSaid(tokens, at);
      return said && { value: { cost: said.value }, next: said.next };
    }
    default: {
      const text = chunk(r, at);
      return text && { value: { [key]: text.text }, next: text.next };
    }
  }
}

function withheld(r: VisitReader, what: 'milk' | 'meat', at: number): Part | undefined {
  const said = numberSaid(r.note.tokens, at);
  if (!said) return undefined;
  const unit = phraseAt(r.note.tokens, said.next, 'withheld-unit');
  if (!unit && said.value !== 0) return undefined;
  if (what === 'meat' && unit && unit.value !== 'days') return undefined;
  return { value: { [`${what}-${unit?.value ?? 'days'}`]: said.value }, next: unit?.next ?? said.next };
}

/** Text up to the next comma, full stop or key of a product; quoted text whole. */
function chunk(r: VisitReader, at: number): { text: string; next: number } | undefined {
  const { tokens, text } = r.note;
  if (tokens[at]?.kind === 'quoted')
    return tokens[at].text === '' ? undefined : { text: tokens[at].text, next: at + 1 };
  let next = at;
  const ends = (token: (typeof tokens)[number]) =>
    token.kind === 'stop' || token.kind === 'line' || /^[,:]$/.test(token.text);
  while (next < tokens.length && !ends(tokens[next]!)) {
    if (
      next > at &&
      phraseAt(tokens, next, 'product-key') &&
      tokens[next]!.bare !== 'on' &&
      tokens[next]!.bare !== 'for'
    )
      break;
    next += 1;
  }
  return next === at ? undefined : { text: text.slice(tokens[at]!.from, tokens[next - 1]!.to), next };
}

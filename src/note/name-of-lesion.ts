import { codeBefore } from './lesions-that-fit.js';
import { noteWords } from './note-words.js';
import { numberSaid } from './number-said.js';
import { phraseAt } from './phrase.js';
import { speakOf } from './subject.js';
import type { VisitReader } from './visit-reader.js';

const callers = new Set(Object.values(noteWords.phrases['called'] ?? {}).flat());

/** The lesion or mark of her file whose short name stands at a token. */
export function nameAt(
  r: VisitReader,
  at: number,
): { readonly name: string; readonly next: number } | undefined {
  const { text, tokens } = r.note;
  const token = tokens[at];
  if (!token || token.kind === 'quoted') return undefined;
  const names = [...Object.keys(r.animal.lesions), ...Object.keys(r.animal.marks ?? {})];
  const name = names
    .filter((one) => {
      const end = token.from + one.length;
      return (
        text.slice(token.from, end).toLowerCase() === one &&
        !/[\p{L}\p{N}]|-[\p{L}\p{N}]/u.test(after(text, end))
      );
    })
    .sort((a, b) => b.length - a.length)[0];
  if (name === undefined) return undefined;
  let next = at;
  while (next < tokens.length && tokens[next]!.from < token.from + name.length) next += 1;
  return { name, next };
}

/** The character behind, and the one behind a hyphen. */
function after(text: string, end: number): string {
  return text[end] === '-' ? text.slice(end, end + 2) : text.slice(end, end + 1);
}

/**
 * A lesion or mark named by its letter: `lesion a`, `a: top 21`, `b top 12` at the beginning of a sentence.
 *
 * `a` is also an article, and `m1` also a stage: a bare name counts only where a colon or a finding of its own follows.
 */
export function readName(r: VisitReader, at: number): number | undefined {
  const { tokens } = r.note;
  if (callers.has(tokens[at]?.bare ?? '')) {
    const named = nameAt(r, at + 1);
    if (named) {
      speakOf(r, named.name, at, named.next);
      return named.next;
    }
  }
  const named = nameAt(r, at);
  if (!named) return undefined;
  const colon = tokens[named.next]?.text === ':';
  if (!colon && !isMarkRead(r, named) && !(begins(r, at) && findingFollows(r, named))) return undefined;
  speakOf(r, named.name, at, named.next);
  return named.next;
}

function begins(r: VisitReader, at: number): boolean {
  const before = r.note.tokens[at - 1];
  return (
    at === r.behindNumber ||
    before === undefined ||
    before.kind === 'stop' ||
    before.kind === 'line' ||
    before.text === ','
  );
}

/** `m1 17` is a mark with its distance, unless skin is spoken of, where `M1` is a stage. */
function isMarkRead(r: VisitReader, { name, next }: { name: string; next: number }): boolean {
  const declared = r.declared(name);
  const spoken = r.subject.is === 'lesion' ? codeBefore(r.animal, r.subject.name, r.date) : undefined;
  return (
    declared !== undefined &&
    !('code' in declared) &&
    spoken !== 'DD' &&
    numberSaid(r.note.tokens, next) !== undefined
  );
}

function findingFollows(r: VisitReader, { next }: { next: number }): boolean {
  const kind = phraseAt(r.note.tokens, next)?.kind ?? '';
  return ['length', 'state', 'top-found', 'lifted', 'stage'].includes(kind);
}

import { phraseAt } from './phrase.js';
import { noteWords } from './note-words.js';
import type { NoteStretch } from './note-reading.js';
import type { Token } from './token.js';

/** A note as given and the tokens of it. */
export interface NoteText {
  readonly text: string;
  readonly tokens: readonly Token[];
}

/** The stretch tokens `from` to before `to` cover; empty at the end of the token before where there is none. */
export function stretchOf({ text, tokens }: NoteText, from: number, to: number): NoteStretch {
  const start = from < to ? tokens[from]!.from : (tokens[from - 1]?.to ?? 0);
  const end = from < to ? tokens[to - 1]!.to : start;
  const line = text.slice(0, start).split('\n').length;
  return { line, from: start, to: end, text: text.slice(start, end) };
}

/** Past commas, colons and hyphens, and past any of the words named. */
export function skip(tokens: readonly Token[], at: number, ...words: readonly string[]): number {
  let next = at;
  while (
    tokens[next]?.kind === 'mark' ||
    (tokens[next]?.kind === 'word' && words.includes(tokens[next]!.bare))
  )
    next += 1;
  return next;
}

/** Where the sentence a token stands in ends: at a full stop or the end of its line. */
export function endOfSentence(tokens: readonly Token[], at: number): number {
  let next = at;
  while (next < tokens.length && tokens[next]!.kind !== 'stop' && tokens[next]!.kind !== 'line') next += 1;
  return next;
}

/** Where free words end although nobody set a full stop: at words that begin another statement. */
const beginsAnother = new Set([
  'recheck', 'block', 'wrap', 'trimmed', 'cut-back', 'ask-farm', 'farm-did', 'gait', 'condition', 'weight',
  'pain-relief', 'vet', 'vet-answer', 'vet-does', 'note', 'tools-disinfected', 'saw-expected', 'product', 'amended',
]); // prettier-ignore

/** Free words: quoted, or to the end of the sentence, or to where another statement begins. Undefined where none stand there. */
export function wordsSaid(
  { text, tokens }: NoteText,
  at: number,
): { readonly words: string; readonly next: number } | undefined {
  const start = skip(tokens, at);
  const first = tokens[start];
  if (first?.kind === 'quoted') return first.text === '' ? undefined : { words: first.text, next: start + 1 };
  let next = start;
  for (const end = endOfSentence(tokens, start); next < end; next += 1)
    if (next > start && beginsAnother.has(phraseAt(tokens, next)?.kind ?? '')) break;
  return next === start ? undefined : { words: text.slice(first!.from, tokens[next - 1]!.to), next };
}

/** The note a trimmer adds in free words: quoted, or to the end of the line, or to the next animal. */
export function restOfLine(
  { text, tokens }: NoteText,
  at: number,
): { readonly words: string; readonly next: number } | undefined {
  const start = skip(tokens, at);
  const first = tokens[start];
  if (first?.kind === 'quoted') return first.text === '' ? undefined : { words: first.text, next: start + 1 };
  let next = start;
  while (next < tokens.length && tokens[next]!.kind !== 'line' && !phraseAt(tokens, next, 'next-animal'))
    next += 1;
  return next === start ? undefined : { words: text.slice(first!.from, tokens[next - 1]!.to), next };
}

const fillers = new Set(noteWords.fillers);
const negations = new Set(noteWords.negations);
const doubts = new Set(noteWords.doubts);

export const isFiller = (token: Token): boolean => token.kind === 'word' && fillers.has(token.bare);
export const isNegation = (token: Token): boolean => token.kind === 'word' && negations.has(token.bare);
export const isDoubt = (token: Token): boolean => token.kind === 'word' && doubts.has(token.bare);

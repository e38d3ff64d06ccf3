import { isDoubt, isFiller, isNegation, endOfSentence } from './note-text.js';
import { numberSaid } from './number-said.js';
import { phraseAt } from './phrase.js';
import { statements } from './statement/statements.js';
import type { Mention, VisitReader } from './visit-reader.js';

/**
 * Words no statement took: kept in the visit's note with a mark. A number among them is asked about, since nobody can
 * tell whether it is a reading; so is a word of doubt beside something understood, since it may turn that round.
 */
export function keepNotUnderstood(
  r: VisitReader,
  run: readonly number[],
  mention: Readonly<Mention> | undefined,
): void {
  const { tokens } = r.note;
  const told = (index: number) => !isFiller(tokens[index]!) && tokens[index]!.kind !== 'mark';
  const first = run.find(told);
  const last = run.findLast(told);
  if (first === undefined || last === undefined) return;
  const from = mention && !mention.used && mention.place && !mention.place.codes && touches(r, mention.next, first)
    ? mention.from : first; // prettier-ignore
  const words = run.filter((index) => index >= first && index <= last);
  const comma = decimalComma(r, first, last);
  if (comma) {
    const { number } = comma;
    r.ask(first - 2, last + 1, {
      id: 'decimal-comma',
      ask: `a comma parts one thing from the next: is it ${number}?`,
      mend: `write a decimal point: \`${number}\``,
      choices: [{ label: number, text: number }],
    });
  } else if (words.some((index) => isNumber(r, index))) {
    r.ask(from, last + 1, {
      id: 'number-alone',
      ask: 'a number with nothing that says what it is',
      mend: 'say what it is, as in `top 21`; or put the words after `note:`',
    });
  } else if (isDoubted(r, words) && somethingUnderstood(r, first)) {
    r.ask(from, last + 1, {
      id: 'not-sure',
      ask: 'does this change what stands beside it?',
      mend: 'write only what is certain; put the rest after `note:`',
      choices: [{ label: 'it changes nothing: leave it out', text: '' }],
    });
  } else {
    r.say(from, last + 1, undefined);
  }
}

/** `no pus or heat` doubts nothing: there `or` only carries the `no` on. */
function isDoubted(r: VisitReader, words: readonly number[]): boolean {
  const { tokens } = r.note;
  const denied = words.some((index) => isNegation(tokens[index]!));
  return words.some((index) => isDoubt(tokens[index]!) && !(denied && tokens[index]!.bare === 'or'));
}

function touches(r: VisitReader, next: number, first: number): boolean {
  return r.note.tokens.slice(next, first).every((token) => token.kind === 'mark' || isFiller(token));
}

/** In figures, or in words from ten on: `the bad one` is no reading. */
function isNumber(r: VisitReader, index: number): boolean {
  const said = numberSaid(r.note.tokens, index);
  return said !== undefined && (said.figures || said.value >= 10);
}

function somethingUnderstood(r: VisitReader, at: number): boolean {
  const { tokens } = r.note;
  let from = at;
  while (from > 0 && tokens[from - 1]!.kind !== 'stop' && tokens[from - 1]!.kind !== 'line') from -= 1;
  for (let index = from; index < endOfSentence(tokens, at); index += 1)
    if ((phraseAt(tokens, index)?.kind ?? '') in statements) return true;
  return false;
}

/** `25,5` with nothing between: the number it stands for where a comma is a decimal point. */
function decimalComma(r: VisitReader, first: number, last: number): { number: string } | undefined {
  const { text, tokens } = r.note;
  const [whole, comma, part] = [tokens[first - 2], tokens[first - 1], tokens[first]];
  if (first !== last || whole?.kind !== 'number' || part?.kind !== 'number' || comma?.text !== ',')
    return undefined;
  const glued = whole.to === comma.from && comma.to === part.from;
  return glued && /^\d+,\d+$/.test(text.slice(whole.from, part.to))
    ? { number: `${whole.text}.${part.text}` }
    : undefined;
}

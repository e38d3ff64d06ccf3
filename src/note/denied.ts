import { isNegation } from './note-text.js';
import { phraseAt } from './phrase.js';
import type { Token } from './token.js';

/**
 * Whether a word of denial among the words before a statement turns it round: `no pus`, `not really bruised`.
 *
 * It reaches the first statement behind it; of signs the whole list, since `no pus, smell or heat` denies all three.
 */
export function isDenied(tokens: readonly Token[], run: readonly number[], kind: string): boolean {
  const last = run.findLastIndex((index) => isNegation(tokens[index]!));
  if (last < 0) return false;
  const since = run.slice(last + 1);
  const phrases = since.map((index) => phraseAt(tokens, index)?.kind).filter((one) => one !== undefined);
  const isSign = (one: string): boolean => one === 'sign' || one === 'animal-sign';
  if (phrases.length > 0) return isSign(kind) && phrases.every(isSign);
  return since.every((index) => tokens[index]!.text !== ',');
}

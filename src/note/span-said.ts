import { numberSaid } from './number-said.js';
import { phraseAt } from './phrase.js';
import type { Token } from './token.js';

/** How many days a span in a note is: `4 weeks`, `ten days`, `a fortnight`, `a week`. Months are no number of days. */
export function spanSaid(
  tokens: readonly Token[],
  at: number,
): { readonly days: number; readonly next: number } | undefined {
  const article = tokens[at]?.bare === 'a' || tokens[at]?.bare === 'another';
  const count = article ? undefined : numberSaid(tokens, at);
  if (!article && count === undefined) {
    const alone = phraseAt(tokens, at, 'span');
    return alone?.value === '14' ? { days: 14, next: alone.next } : undefined;
  }
  const unit = phraseAt(tokens, count?.next ?? at + 1, 'span');
  if (!unit) return undefined;
  const days = (count?.value ?? 1) * Number(unit.value);
  return Number.isInteger(days) ? { days, next: unit.next } : undefined;
}

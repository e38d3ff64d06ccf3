import { noteWords, numbersOf } from './note-words.js';
import { fractionOf, type Token } from './token.js';
import { phraseAt } from './phrase.js';

/** A number in a note and the first token after it. */
interface NumberSaid {
  readonly value: number;
  readonly next: number;
  /** In figures rather than in words. */
  readonly figures: boolean;
}

const units = numbersOf(noteWords.numbers);
const quarterWords: ReadonlyMap<string, number> = new Map([
  ['half', 0.5],
  ['quarter', 0.25],
  ['quarters', 0.25],
]);

/**
 * The number that begins at a token: in figures (`18.5`, `18 1/2`, `18½`) or in words (`twenty one`, `eighteen and a
 * half`, `two point seven five`, `a hundred and five`, `half`).
 *
 * Checked: tests/note/number-said.test.ts
 */
export function numberSaid(tokens: readonly Token[], at: number): NumberSaid | undefined {
  const whole = inFigures(tokens, at) ?? inWords(tokens, at);
  if (whole === undefined) {
    const alone = fractionSaid(tokens, at);
    return alone && { ...alone, figures: tokens[at]!.kind !== 'word' };
  }
  const more = whole.whole ? fractionAfter(tokens, whole.next) : undefined;
  return more
    ? { value: whole.value + more.value, next: more.next, figures: whole.figures }
    : { value: whole.value, next: whole.next, figures: whole.figures };
}

type Whole = NumberSaid & { readonly whole: boolean };

function inFigures(tokens: readonly Token[], at: number): Whole | undefined {
  const token = tokens[at];
  if (token?.kind !== 'number' || fractionInFigures(tokens, at)) return undefined;
  return { value: Number(token.text), next: at + 1, figures: true, whole: !token.text.includes('.') };
}

function inWords(tokens: readonly Token[], at: number): Whole | undefined {
  const hundred = hundreds(tokens, at);
  const start = hundred?.next ?? at;
  const rest = tensAndOnes(tokens, hundred && is(tokens, start, 'and') ? start + 1 : start);
  if (!hundred && !rest) return undefined;
  const value = (hundred?.value ?? 0) + (rest?.value ?? 0);
  const next = rest?.next ?? start;
  const decimals = afterPoint(tokens, next);
  return decimals
    ? { value: Number(`${value}.${decimals.digits}`), next: decimals.next, figures: false, whole: false }
    : { value, next, figures: false, whole: true };
}

function hundreds(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const count = is(tokens, at, 'a') ? 1 : wordValue(tokens, at);
  if (count === undefined || count < 1 || count > 9 || !is(tokens, at + 1, 'hundred')) return undefined;
  return { value: count * 100, next: at + 2 };
}

function tensAndOnes(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const first = wordValue(tokens, at);
  if (first === undefined) return undefined;
  if (first < 20) return { value: first, next: at + 1 };
  const then = is(tokens, at + 1, '-') ? at + 2 : at + 1;
  const ones = wordValue(tokens, then);
  return ones !== undefined && ones > 0 && ones < 10
    ? { value: first + ones, next: then + 1 }
    : { value: first, next: at + 1 };
}

function afterPoint(tokens: readonly Token[], at: number): { digits: string; next: number } | undefined {
  if (!is(tokens, at, 'point')) return undefined;
  let digits = '';
  let next = at + 1;
  for (let value = wordValue(tokens, next); value !== undefined && digits.length < 3;) {
    const pair = value >= 20 ? tensAndOnes(tokens, next)! : { value, next: next + 1 };
    digits += String(pair.value);
    next = pair.next;
    value = pair.value >= 10 ? undefined : wordValue(tokens, next);
  }
  if (digits === '' && tokens[next]?.kind === 'number') return { digits: tokens[next]!.text, next: next + 1 };
  return digits === '' ? undefined : { digits, next };
}

/** `1/2`, `½`, `half`, `three quarters`. */
function fractionSaid(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const sign = tokens[at]?.kind === 'fraction' ? fractionOf(tokens[at].text) : undefined;
  if (sign !== undefined) return { value: sign, next: at + 1 };
  const figures = fractionInFigures(tokens, at);
  if (figures) return figures;
  const count = wordValue(tokens, at);
  const part = quarterWords.get(tokens[count === undefined ? at : at + 1]?.bare ?? '');
  if (part === undefined || (count !== undefined && count > 3)) return undefined;
  return { value: part * (count ?? 1), next: count === undefined ? at + 1 : at + 2 };
}

function fractionInFigures(
  tokens: readonly Token[],
  at: number,
): { value: number; next: number } | undefined {
  const [top, stroke, bottom] = tokens.slice(at, at + 3);
  if (top?.kind !== 'number' || stroke?.text !== '/' || bottom?.kind !== 'number') return undefined;
  const glued = top.to === stroke.from && stroke.to === bottom.from && tokens[at + 3]?.text !== '/';
  return glued && ['1/2', '1/4', '3/4'].includes(`${top.text}/${bottom.text}`)
    ? { value: Number(top.text) / Number(bottom.text), next: at + 3 }
    : undefined;
}

/** After a whole number: `18 1/2`, `18½`, `eighteen and a half`. */
function fractionAfter(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  if (!is(tokens, at, 'and')) {
    const kind = tokens[at]?.kind;
    return kind === 'fraction' || kind === 'number' ? fractionSaid(tokens, at) : undefined;
  }
  return fractionSaid(tokens, is(tokens, at + 1, 'a') ? at + 2 : at + 1);
}

function is(tokens: readonly Token[], at: number, bare: string): boolean {
  return tokens[at]?.bare === bare && tokens[at]?.kind !== 'quoted';
}

function wordValue(tokens: readonly Token[], at: number): number | undefined {
  const token = tokens[at];
  return token?.kind === 'word' ? units.get(token.bare) : undefined;
}

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

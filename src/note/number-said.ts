import { isOne, noteWords, spelled, turned } from './note-words.js';
import type { Token } from './token.js';

export type Unit = 'mm' | 'cm' | 'in' | 'kg' | 'lb';

/** A number in a note and the first token after it. */
export interface NumberSaid {
  readonly value: number;
  readonly next: number;
  readonly unit?: Unit;
  /** Halves, quarters, eighths, sixteenths were said. */
  readonly parts: boolean;
  /** In words rather than in figures. */
  readonly words: boolean;
}

const exact = turned(noteWords.numbers, Number);
/** A number in a word, a slip in it or not: half of `twnty seven` must not be taken for all of it. */
const ones = {
  get: (word: string): number | undefined =>
    // `twenty seven's a bad one`
    exact.get(word) ??
    exact.get(spelled(word)) ??
    (word.length > 4 ? exact.get(word.replace(/s$/, '')) : undefined),
};
const exactParts = turned(noteWords.parts, Number);
const parts = {
  get: (word: string): number | undefined => exactParts.get(word) ?? exactParts.get(spelled(word)),
};
const units = turned(noteWords.units, (unit) => unit as Unit);
const signs: Readonly<Record<string, number>> = { '½': 1 / 2, '¼': 1 / 4, '¾': 3 / 4, '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8 }; // prettier-ignore

/**
 * The number that begins at a token: in figures (`18.5`, `2,9 cm`, `1-11/16`, `18½`) or in words (`twenty one`, `one and an
 * eighth`, `half an inch`), with the unit behind it.
 *
 * Checked: tests/note/number-said.test.ts
 */
export function numberSaid(tokens: readonly Token[], at: number): NumberSaid | undefined {
  const token = tokens[at];
  if (token === undefined) return undefined;
  const words = token.kind === 'word';
  const parted = words ? inWords(tokens, at) : undefined;
  const whole = parted ? undefined : words ? wholeInWords(tokens, at) : wholeInFigures(tokens, at);
  const fraction =
    whole && (whole.decimal || whole.value >= 100)
      ? undefined
      : fractionSaid(tokens, whole?.next ?? at, whole !== undefined);
  // `a quarter inch`, `half an inch`, `an inch`.
  if (!whole && !fraction) {
    const article = isOne('a', token.bare);
    const next = article ? at + 2 : at + 1;
    if (!words || units.get(tokens[next - 1]?.bare ?? '') !== 'in') return undefined;
    const inch = withPart(tokens, { value: 1, unit: 'in', next, parts: true, words: true });
    // `inch and five eighths`; an `inch` alone is the unit of something else.
    return article || inch.next > next ? inch : undefined;
  }
  const next = fraction?.next ?? whole!.next;
  const value = (whole?.value ?? 0) + (fraction?.value ?? 0);
  const all = {
    value,
    parts: fraction !== undefined,
    words,
    ...unitBehind(tokens, next, fraction !== undefined),
  };
  return fraction === undefined && !whole?.decimal ? withPart(tokens, all) : all;
}

/** `three inches and an eighth`, `an inch and three quarters`: the fraction follows the unit. */
function withPart(tokens: readonly Token[], said: NumberSaid): NumberSaid {
  const part =
    said.unit === 'in' && tokens[said.next]?.bare === 'and'
      ? fractionSaid(tokens, said.next, true)
      : undefined;
  return part === undefined
    ? said
    : { ...said, value: said.value + part.value, parts: true, next: part.next };
}

function unitBehind(tokens: readonly Token[], next: number, isPart: boolean): { unit?: Unit; next: number } {
  if (tokens[next]?.kind === 'inch') return { unit: 'in', next: next + 1 };
  const article = isPart && isOne('a of', tokens[next]?.bare);
  const after = article ? next + (tokens[next]!.bare === 'of' && isOne('a', tokens[next + 1]?.bare) ? 2 : 1) : next; // prettier-ignore
  // `5/8 in of a 1 3/4 wall`, but not `1/2 in the morning`.
  const behind = tokens[after + 1];
  const isIn =
    isPart &&
    tokens[after]?.bare === 'in' &&
    (behind === undefined || behind.kind !== 'word' || isOne('behind inch', behind.bare)) &&
    behind?.kind !== 'number';
  const unit = isIn ? 'in' : units.get(tokens[after]?.bare ?? '');
  return unit === undefined ? { next } : { unit, next: after + 1 };
}

interface Whole {
  readonly value: number;
  readonly next: number;
  readonly decimal: boolean;
}

function wholeInFigures(tokens: readonly Token[], at: number): Whole | undefined {
  const token = tokens[at]!;
  if (token.kind !== 'number' || isFraction(tokens, at)) return undefined;
  const [comma, rest] = [tokens[at + 1], tokens[at + 2]];
  const isComma =
    comma?.text === ',' && rest?.kind === 'number' && comma.from === token.to && rest.from === comma.to;
  if (isComma && /^\d+$/.test(token.text) && /^\d$/.test(rest.text))
    return { value: Number(`${token.text}.${rest.text}`), next: at + 3, decimal: true };
  return { value: Number(token.text), next: at + 1, decimal: token.text.includes('.') };
}

function wholeInWords(tokens: readonly Token[], at: number): Whole | undefined {
  const twice = tokens[at]!.bare === 'double' ? ones.get(tokens[at + 1]?.bare ?? '') : undefined;
  if (twice !== undefined && twice < 10) return { value: twice * 11, next: at + 2, decimal: false };
  const first = ones.get(tokens[at]!.bare);
  if (first === undefined && !(tokens[at]!.bare === 'a' && tokens[at + 1]?.bare === 'hundred'))
    return undefined;
  let { value, next } = tensAndOnes(tokens, at) ?? { value: 1, next: at + 1 };
  for (const [word, times] of [
    ['thousand', 1000],
    ['hundred', 100],
  ] as const) {
    if (tokens[next]?.bare !== word) continue;
    const and = tokens[next + 1]?.bare === 'and' ? next + 2 : next + 1;
    const rest = tensAndOnes(tokens, and);
    const more = tokens[rest?.next ?? 0]?.bare === 'hundred' ? wholeInWords(tokens, and) : rest;
    value = value * times + (more?.value ?? 0);
    next = more?.next ?? next + 1;
  }
  if (!['point', 'comma'].includes(tokens[next]?.bare ?? '')) return { value, next, decimal: false };
  const digits = tensAndOnes(tokens, next + 1);
  // `comma` is also dictated for the sign.
  if (!digits || tokens[next]!.bare === 'comma') return { value, next, decimal: false };
  let said = String(digits.value);
  let end = digits.next;
  if (digits.value < 10)
    for (let more = ones.get(tokens[end]?.bare ?? ''); more !== undefined && more < 10 && said.length < 2;) {
      said += String(more);
      end += 1;
      more = undefined;
    }
  return { value: Number(`${value}.${said}`), next: end, decimal: true };
}

function tensAndOnes(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const first = tokens[at]?.kind === 'word' ? ones.get(tokens[at].bare) : undefined;
  if (first === undefined) return undefined;
  if (first < 20) return { value: first, next: at + 1 };
  const then = tokens[at + 1]?.text === '-' ? at + 2 : at + 1;
  const last = tokens[then]?.kind === 'word' ? ones.get(tokens[then].bare) : undefined;
  return last !== undefined && last > 0 && last < 10
    ? { value: first + last, next: then + 1 }
    : { value: first, next: at + 1 };
}

/** `3/4`, glued, one of the usual fractions of an inch. */
function isFraction(tokens: readonly Token[], at: number): boolean {
  const [top, stroke, bottom] = [tokens[at], tokens[at + 1], tokens[at + 2]];
  if (top?.kind !== 'number' || stroke?.text !== '/' || bottom?.kind !== 'number') return false;
  // `10/11/26` is a day; `1 1/8 / 1 3/4` are two lengths.
  const more = tokens[at + 3]?.text === '/' && tokens[at + 3]!.from === bottom.to;
  const glued = top.to === stroke.from && stroke.to === bottom.from && !more;
  return glued && ['2', '4', '8', '16'].includes(bottom.text) && Number(top.text) < Number(bottom.text);
}

/** `1/2`, `½`, `half`, `three quarters`; behind a whole number also `and a half`, `-11/16`. */
function fractionSaid(
  tokens: readonly Token[],
  at: number,
  behindWhole: boolean,
): { value: number; next: number } | undefined {
  const token = tokens[at];
  if (token === undefined) return undefined;
  if (token.kind === 'fraction') return { value: signs[token.text]!, next: at + 1 };
  if (isFraction(tokens, at))
    return { value: Number(token.text) / Number(tokens[at + 2]!.text), next: at + 3 };
  if (behindWhole && token.text === '-' && isFraction(tokens, at + 1))
    return fractionSaid(tokens, at + 1, false);
  if (behindWhole && token.bare === 'and') {
    const article = isOne('a', tokens[at + 1]?.bare) ? at + 2 : at + 1;
    return inWords(tokens, article);
  }
  return behindWhole ? undefined : inWords(tokens, isOne('a', token.bare) ? at + 1 : at);
}

function inWords(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const count = ones.get(tokens[at]?.bare ?? '');
  const word = tokens[count === undefined ? at : at + 1]?.bare ?? '';
  const of = parts.get(word);
  // `eighths` without a number before them: the number was misheard.
  if (count === undefined && /[^s]s$/.test(word)) return undefined;
  if (of === undefined || (count !== undefined && count >= of) || (of === 3 && count === undefined))
    return undefined;
  return { value: (count ?? 1) / of, next: count === undefined ? at + 1 : at + 2 };
}

/**
 * Every number that may be spelled out digit by digit or in pairs from a token on, the shortest first: `nine oh seven`,
 * `forty one twenty`, `eleven hundred forty two`.
 */
export function digitsSaid(
  tokens: readonly Token[],
  at: number,
): { digits: string; next: number; steps: number }[] {
  const all: { digits: string; next: number; steps: number }[] = [];
  let digits = '';
  let next = at;
  for (let steps = 1; digits.length < 8; steps += 1) {
    const token = tokens[next];
    if (token?.kind !== 'word') break;
    const twice = token.bare === 'double' ? ones.get(tokens[next + 1]?.bare ?? '') : undefined;
    if (twice !== undefined && twice < 10) {
      digits += String(twice * 11).padStart(2, '0');
      next += 1;
    } else if (isOne('zero', token.bare) && digits !== '') digits += '0';
    else {
      const chunk = tensAndOnes(tokens, next);
      if (!chunk) break;
      const whole = steps === 1 ? wholeInWords(tokens, next) : undefined;
      if (whole && !whole.decimal && whole.value >= 100)
        all.push({ digits: String(whole.value), next: whole.next, steps: 2 });
      digits += String(chunk.value);
      next = chunk.next - 1;
    }
    next += 1;
    all.push({ digits, next, steps });
  }
  return all;
}

/** A length in mm, rounded as it was said; `near`: what it may be near, which settles whether bare parts are inches. */
export function inMm(
  { value, unit, parts: isPart }: Pick<NumberSaid, 'value' | 'unit' | 'parts'>,
  near?: number,
): number {
  const tenth = (mm: number): number => Math.round(Number((mm * 10).toFixed(6))) / 10;
  if (unit === 'cm') return tenth(value * 10);
  if (unit === 'in') return tenth(value * 25.4);
  if (unit !== undefined) return value;
  const inches =
    isPart && (near === undefined ? value < 4 : Math.abs(value * 25.4 - near) < Math.abs(value - near));
  return inches ? tenth(value * 25.4) : value;
}

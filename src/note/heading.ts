import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { daySaid, type DaySaid } from './day-said.js';
import type { NoteContext } from './note-reading.js';
import { endOfName } from './place-said.js';
import { skip } from './note-text.js';
import { numberSaid, spanSaid } from './number-said.js';
import { phraseAt } from './phrase.js';
import type { Token } from './token.js';

/** The day of a visit: the latest such day not in the future. */
export function visitDay(context: NoteContext, tokens: readonly Token[], at: number): DaySaid | undefined {
  const { today } = context;
  const lead = phraseAt(tokens, at);
  const from = lead?.kind === 'date' ? skip(tokens, lead.next) : at;
  return daySaid(tokens, from, { pick: 'latest', from: today, today });
}

/** The farm whose name or slug stands at a token, `farm` before it or not. */
export function farmAt(
  context: NoteContext,
  tokens: readonly Token[],
  at: number,
): { readonly farm: FarmRecord; readonly next: number } | undefined {
  const lead = phraseAt(tokens, at);
  const from = lead?.kind === 'farm' ? skip(tokens, lead.next) : at;
  const found = context.farms.flatMap((farm) =>
    [farm.farm.farm, farm.slug].flatMap((name) => {
      const next = endOfName(tokens, from, name);
      return next === undefined ? [] : [{ farm, next }];
    }),
  );
  return found.sort((a, b) => b.next - a.next)[0];
}

/** An animal's number where a note begins to tell of her; no records where nobody has that number. */
export interface AnimalAt {
  readonly found: readonly { readonly farm: FarmRecord; readonly record: CaseRecord }[];
  readonly next: number;
}

/**
 * The animal that a note begins to tell of at a token: her number at the beginning of a line or a sentence, behind
 * `cow`, or, since no length is that long, any number above 200 that is hers.
 */
export function animalAt(
  farms: readonly FarmRecord[],
  tokens: readonly Token[],
  at: number,
  begins: boolean,
): AnimalAt | undefined {
  const lead = phraseAt(tokens, at);
  const led = lead?.kind === 'animal';
  const from = led ? skip(tokens, lead.next, 'number', 'no') : at;
  const figure = tokens[from]?.kind === 'number' ? Number(tokens[from].text) : undefined;
  if (!begins && !led && !(figure !== undefined && figure > 200)) return undefined;
  const said = namedAt(farms, tokens, from);
  if (isMeasure(tokens, from)) return undefined;
  if (said.found.length > 0) return said;
  const surelyLed = led && /^(cow|animal|heifer|next)/.test(tokens[at]!.bare) && figure !== undefined;
  const looksLikeOne = begins && figure !== undefined && figure >= 100 && Number.isInteger(figure);
  return surelyLed || looksLikeOne ? { found: [], next: from + 1 } : undefined;
}

/** A number with a unit, a span or a day is no animal. */
function isMeasure(tokens: readonly Token[], at: number): boolean {
  const said = numberSaid(tokens, at);
  if (!said) return false;
  const after = phraseAt(tokens, said.next);
  const glued = tokens[said.next]?.from === tokens[said.next - 1]?.to;
  return (
    spanSaid(tokens, at) !== undefined ||
    phraseAt(tokens, said.next, 'unit') !== undefined ||
    after?.kind === 'length' && ['wide', 'across', 'long', 'deep'].includes(tokens[said.next]!.bare) ||
    (glued && tokens[said.next]?.kind === 'word' && tokens[said.next]?.bare !== 'md')
  ); // prettier-ignore
}

function namedAt(farms: readonly FarmRecord[], tokens: readonly Token[], at: number): AnimalAt {
  const all = farms.flatMap((farm) => farm.cases.map((record) => ({ farm, record })));
  const whole = all.flatMap((one) =>
    namesOf(one.record).flatMap((name) => {
      const next = endOfName(tokens, at, name);
      return next === undefined ? [] : [{ ...one, next }];
    }),
  );
  const longest = whole.reduce((most, { next }) => Math.max(most, next), 0);
  if (longest > 0) return { found: distinct(whole.filter(({ next }) => next === longest)), next: longest };
  for (const { digits, next } of spokenDigits(tokens, at).reverse()) {
    const found = all.filter(({ record }) => record.animal.animal === digits);
    if (found.length > 0) return { found, next };
  }
  return { found: [], next: at };
}

function namesOf({ slug, animal }: CaseRecord): string[] {
  return [animal.animal, slug, `${slug}.md`, animal.tag, animal.electronic].filter(
    (name) => name !== undefined,
  );
}

function distinct<T extends { readonly record: CaseRecord }>(found: readonly T[]): T[] {
  return found.filter((one, i) => found.findIndex(({ record }) => record === one.record) === i);
}

/** `twenty eighty six` and `two zero eight six` are 2086: the numbers said one after another, written side by side. */
function spokenDigits(tokens: readonly Token[], at: number): { digits: string; next: number }[] {
  const ways: { digits: string; next: number }[] = [];
  let digits = '';
  let next = at;
  for (let said = numberSaid(tokens, next); said && ways.length < 6; said = numberSaid(tokens, next)) {
    if (!Number.isInteger(said.value)) break;
    digits += String(said.value);
    next = said.next;
    ways.push({ digits, next });
  }
  return ways;
}

/** Animals with nearly this number: one figure wrong, left out or put in, or two changed round. */
export function nearNumbers(farms: readonly FarmRecord[], called: string): string[] {
  const numbers = farms.flatMap((farm) => farm.cases.map(({ animal }) => animal.animal));
  const sorted = (text: string) => [...text].sort().join('');
  return numbers.filter((number) => {
    if (Math.abs(number.length - called.length) > 1) return false;
    if (number.length !== called.length) {
      const [long, short] = number.length > called.length ? [number, called] : [called, number];
      return [...long].some((_, i) => long.slice(0, i) + long.slice(i + 1) === short);
    }
    const wrong = [...number].filter((figure, i) => figure !== called[i]).length;
    return wrong === 1 || (wrong === 2 && sorted(number) === sorted(called));
  });
}

import { type CalendarDay, addDays, calendarDay } from '../record/calendar-day.js';
import { monthNumbers } from '../reference/months.js';
import { noteWords, numbersOf } from './note-words.js';
import { numberSaid } from './number-said.js';
import { phraseAt } from './phrase.js';
import type { Token } from './token.js';

/** What a day without a year, or told by its distance, is counted from. */
export interface DayBase {
  /** `latest`: the last such day not after `from`; `next`: the first not before it. */
  readonly pick: 'latest' | 'next';
  readonly from: CalendarDay;
  /** What `today` and `yesterday` are counted from; undefined where that cannot be told. */
  readonly today: CalendarDay | undefined;
}

/** A day in a note: the days it may be (one where it is certain, none where no such day exists). */
export interface DaySaid {
  readonly days: readonly CalendarDay[];
  readonly next: number;
}

const ordinals = numbersOf(noteWords.ordinals);

/**
 * The day that begins at a token: `2026-03-03`, `3 March 2026`, `March 3rd`, `the third of March`, `3/3/26`, `today`.
 *
 * Both orders of `3/4/26` are days, and nothing but the writer can tell which was meant: both are given back.
 *
 * Checked: tests/note/day-said.test.ts
 */
export function daySaid(tokens: readonly Token[], at: number, base: DayBase): DaySaid | undefined {
  return (
    inFigures(tokens, at, base) ??
    dayThenMonth(tokens, at, base) ??
    monthThenDay(tokens, at, base) ??
    relative(tokens, at, base)
  );
}

function inFigures(tokens: readonly Token[], at: number, base: DayBase): DaySaid | undefined {
  const first = tokens[at];
  if (first?.kind !== 'number') return undefined;
  const run = gluedRun(tokens, at);
  const iso = /^(\d{4})-(\d{2})-(\d{2})$/.exec(run.text);
  if (iso) return { days: existing([run.text]), next: run.next };
  const parts = /^(\d{1,2})([/.-])(\d{1,2})(?:\2(\d{2}|\d{4}))?$/.exec(run.text);
  if (!parts || (parts[2] !== '/' && parts[4] === undefined)) return undefined;
  const year =
    parts[4] === undefined ? undefined : Number(parts[4].length === 2 ? `20${parts[4]}` : parts[4]);
  const [one, other] = [Number(parts[1]), Number(parts[3])];
  const ways = [dayOf(one, other, year, base), dayOf(other, one, year, base)];
  return { days: [...new Set(ways.filter((day) => day !== undefined))], next: run.next };
}

/** Figures, strokes, dots and hyphens written without a space. */
function gluedRun(tokens: readonly Token[], at: number): { text: string; next: number } {
  let text = tokens[at]!.text;
  let next = at + 1;
  while (
    tokens[next]?.from === tokens[next - 1]!.to &&
    (tokens[next]!.kind === 'number' || /^[/.-]$/.test(tokens[next]!.text))
  ) {
    if (/^[/.-]$/.test(tokens[next]!.text) && tokens[next + 1]?.from !== tokens[next]!.to) break;
    if (/^[/.-]$/.test(tokens[next]!.text) && tokens[next + 1]?.kind !== 'number') break;
    text += tokens[next]!.text;
    next += 1;
  }
  return { text, next };
}

function dayThenMonth(tokens: readonly Token[], at: number, base: DayBase): DaySaid | undefined {
  const day = dayNumberSaid(tokens, tokens[at]?.bare === 'the' ? at + 1 : at);
  if (!day) return undefined;
  const then = tokens[day.next]?.bare === 'of' ? day.next + 1 : day.next;
  const month = monthNumbers.get(tokens[then]?.bare ?? '');
  if (month === undefined) return undefined;
  return withYear(tokens, then + 1, day.value, month, base);
}

function monthThenDay(tokens: readonly Token[], at: number, base: DayBase): DaySaid | undefined {
  const month = monthNumbers.get(tokens[at]?.bare ?? '');
  if (month === undefined) return undefined;
  const dot = tokens[at + 1]?.text === '.' ? at + 2 : at + 1;
  const day = dayNumberSaid(tokens, tokens[dot]?.bare === 'the' ? dot + 1 : dot);
  return day && withYear(tokens, day.next, day.value, month, base);
}

/** `3`, `3rd`, `third`, `twenty first`, `twenty-one`. */
function dayNumberSaid(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const token = tokens[at];
  if (token?.kind === 'number') {
    const value = Number(token.text);
    if (!Number.isInteger(value) || value < 1 || value > 31) return undefined;
    const ending = tokens[at + 1];
    const glued = ending?.from === token.to && /^(st|nd|rd|th)$/.test(ending.bare);
    return { value, next: glued ? at + 2 : at + 1 };
  }
  const ordinal = ordinals.get(token?.bare ?? '');
  if (ordinal !== undefined) return { value: ordinal, next: at + 1 };
  const tens = token?.bare === 'twenty' ? 20 : token?.bare === 'thirty' ? 30 : 0;
  const then = tokens[at + 1]?.text === '-' ? at + 2 : at + 1;
  const ones = tens === 0 ? undefined : ordinals.get(tokens[then]?.bare ?? '');
  if (ones !== undefined && ones < 10) return { value: tens + ones, next: then + 1 };
  const said = token?.kind === 'word' ? numberSaid(tokens, at) : undefined;
  return said && Number.isInteger(said.value) && said.value >= 1 && said.value <= 31 ? said : undefined;
}

function withYear(tokens: readonly Token[], at: number, day: number, month: number, base: DayBase): DaySaid {
  const comma = tokens[at]?.text === ',' ? at + 1 : at;
  const year = yearSaid(tokens, comma, base);
  const found = dayOf(day, month, year?.value, base);
  return { days: found === undefined ? [] : [found], next: year?.next ?? at };
}

/** A year near the day counted from, on the side it lies; any other number of four figures is an animal's. */
function yearSaid(
  tokens: readonly Token[],
  at: number,
  base: DayBase,
): { value: number; next: number } | undefined {
  const token = tokens[at];
  const after = (value: number) => value - Number(base.from.slice(0, 4));
  const near = (value: number) =>
    base.pick === 'latest'
      ? after(value) <= 0 && after(value) >= -15
      : after(value) >= 0 && after(value) <= 3;
  if (token?.kind === 'number' && /^20\d\d$/.test(token.text) && near(Number(token.text)))
    return { value: Number(token.text), next: at + 1 };
  if (token?.bare !== 'twenty') return undefined;
  const rest = numberSaid(tokens, at + 1);
  return rest && !rest.figures && Number.isInteger(rest.value) && rest.value >= 10 && near(2000 + rest.value)
    ? { value: 2000 + rest.value, next: rest.next }
    : undefined;
}

/** `today` in a visit's lines is the visit's day; `yesterday` is certain only in a note of this very day. */
function relative(tokens: readonly Token[], at: number, { today, from }: DayBase): DaySaid | undefined {
  const said = phraseAt(tokens, at, 'relative-day');
  if (!said) return undefined;
  const base = today ?? (said.value === '0' ? from : undefined);
  return { days: base === undefined ? [] : [addDays(base, Number(said.value))], next: said.next };
}

function dayOf(
  day: number,
  month: number,
  year: number | undefined,
  { pick, from }: DayBase,
): CalendarDay | undefined {
  const two = (n: number) => String(n).padStart(2, '0');
  const inYear = (y: number) => `${y}-${two(month)}-${two(day)}`;
  if (year !== undefined) return existing([inYear(year)])[0];
  const base = Number(from.slice(0, 4));
  // Eight years either way: 29 February comes round at most that late.
  const steps = Array.from({ length: 9 }, (_, n) => base + (pick === 'latest' ? -n : n));
  return existing(steps.map(inYear)).find((one) => (pick === 'latest' ? one <= from : one >= from));
}

function existing(days: readonly string[]): CalendarDay[] {
  return days.filter((day) => calendarDay.safeParse(day).success);
}

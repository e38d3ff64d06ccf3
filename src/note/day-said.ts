import type { Business } from '../record/business.js';
import { type CalendarDay, addDays, calendarDay, dayNumber } from '../record/calendar-day.js';
import { monthNumbers } from '../reference/months.js';
import { isKnown, isOne, noteWords, phraseAt, slipsBetween, spelled, turned } from './note-words.js';
import { numberSaid } from './number-said.js';
import type { Token } from './token.js';

/** A day as far as it is said. */
export interface DaySaid {
  /** Whole, in the order of figures a year has only one reading of. */
  readonly iso?: string;
  readonly day?: number;
  readonly month?: number;
  readonly year?: number;
  /** Figures whose order is not said: `3/4`, `3/4/26`. */
  readonly either?: readonly [number, number];
  /** 0 Sunday to 6. */
  readonly weekday?: number;
  /** Days from today. */
  readonly relative?: number;
  /** `mid January`: one of several days. */
  readonly vague?: boolean;
  readonly next: number;
}

const exactOrdinals = turned(noteWords.ordinals, Number);
/** An ordinal, a slip in it or not. */
const ordinals = {
  get: (word: string): number | undefined => exactOrdinals.get(word) ?? exactOrdinals.get(spelled(word)),
};

/**
 * The day that begins at a token: `2026-03-03`, `3 March 2026`, `March 3rd`, `the third of March`, `3/3/26`, `Tues 10th`,
 * `Friday`, `the 19th`, `mid January`, `today`.
 *
 * Checked: tests/note/day-said.test.ts
 */
export function daySaid(tokens: readonly Token[], at: number): DaySaid | undefined {
  const phrase = phraseAt(tokens, at);
  const weekday = phrase?.is.get('weekday');
  if (weekday !== undefined) {
    const dot = tokens[phrase!.next]?.text === '.' ? phrase!.next + 1 : phrase!.next;
    let then = dot;
    while (/^[,(]$/.test(tokens[then]?.text ?? '') || isOne('the of', tokens[then]?.bare)) then += 1;
    const rest =
      inFigures(tokens, then) ??
      dayThenMonth(tokens, then) ??
      monthThenDay(tokens, then) ??
      dayAlone(tokens, then);
    return rest ? { ...rest, weekday: Number(weekday) } : { weekday: Number(weekday), next: phrase!.next };
  }
  const relative = phrase?.is.get('relative-day');
  if (relative !== undefined) return { relative: Number(relative), next: phrase!.next };
  const part = phrase?.is.get('part-of-month');
  const month = part === undefined ? undefined : monthAt(tokens, phrase!.next);
  if (month !== undefined) return { day: Number(part), month, vague: true, next: phrase!.next + 1 };
  return (
    inFigures(tokens, at) ?? dayThenMonth(tokens, at) ?? monthThenDay(tokens, at) ?? (tokens[at]?.bare === 'the' ? dayAlone(tokens, at + 1) : tokens[at]?.kind === 'number' ? dayAlone(tokens, at) : undefined) // prettier-ignore
  );
}

function inFigures(tokens: readonly Token[], at: number): DaySaid | undefined {
  if (tokens[at]?.kind !== 'number') return undefined;
  const spaced = inSpaces(tokens, at);
  if (spaced) return spaced;
  const run = gluedRun(tokens, at);
  if (/^\d{4}-\d{2}-\d{2}$/.test(run.text)) return { iso: run.text, next: run.next };
  const found = /^(\d{1,2})([/.-])(\d{1,2})(?:\2(\d{2}|\d{4}))?$/.exec(run.text);
  if (!found) return undefined;
  const [, one, sign, other, year] = found;
  const either = [Number(one), Number(other)] as const;
  if (!either.some((n) => n >= 1 && n <= 12) || either.some((n) => n < 1 || n > 31)) return undefined;
  // 10.11 may be a length; with a dot behind it is how a day is written.
  if (year === undefined && sign === '-') return undefined;
  if (year === undefined && sign === '.' && (tokens[run.next]?.text !== '.' || other!.length < 2))
    return undefined;
  const whole = year === undefined ? {} : { year: Number(year.length === 2 ? `20${year}` : year) };
  return { either, ...whole, next: year === undefined && sign === '.' ? run.next + 1 : run.next };
}

/** `24.11`, `26-11` right behind a farm's name, where no length can be. */
export function dayBehindFarm(tokens: readonly Token[], at: number): DaySaid | undefined {
  if (tokens[at]?.kind !== 'number') return undefined;
  const run = gluedRun(tokens, at);
  const found = /^(\d{1,2})[.-](\d{1,2})$/.exec(run.text);
  const either = [Number(found?.[1]), Number(found?.[2])] as const;
  return either.every((n) => n >= 1 && n <= 31) && either.some((n) => n <= 12)
    ? { either, next: run.next }
    : undefined;
}

/** `16 11 26` at the end of its line. */
function inSpaces(tokens: readonly Token[], at: number): DaySaid | undefined {
  const three = tokens.slice(at, at + 3);
  const after = tokens[at + 3];
  if (
    three.length < 3 ||
    !three.every(({ kind, text }) => kind === 'number' && /^\d{1,2}$|^20\d\d$/.test(text))
  )
    return undefined;
  if (after !== undefined && after.kind !== 'line' && after.text !== ',') return undefined;
  const [one, other, year] = three.map(({ text }) => Number(text)) as [number, number, number];
  if (
    one < 1 ||
    one > 31 ||
    other < 1 ||
    other > 31 ||
    (one > 12 && other > 12) ||
    year % 100 < 15 ||
    year % 100 > 50
  )
    return undefined;
  return { either: [one, other], year: year < 100 ? 2000 + year : year, next: at + 3 };
}

/** Figures, strokes, dots and hyphens written without a space. */
function gluedRun(tokens: readonly Token[], at: number): { text: string; next: number } {
  let text = tokens[at]!.text;
  let next = at + 1;
  for (; next < at + 8 && tokens[next]?.from === tokens[next - 1]!.to; next += 1) {
    const sign = /^[/.-]$/.test(tokens[next]!.text);
    const [after] = [tokens[next + 1]];
    if (sign ? after?.kind !== 'number' || after.from !== tokens[next]!.to : tokens[next]!.kind !== 'number')
      break;
    text += tokens[next]!.text;
  }
  return { text, next };
}

/** A month by its name, a few letters mistyped or not. */
function monthAt(tokens: readonly Token[], at: number): number | undefined {
  const word = tokens[at]?.kind === 'word' ? tokens[at].bare : '';
  const exact = monthNumbers.get(word);
  // `may` and `march` are verbs too: only beside a number, which the callers see to.
  if (exact !== undefined || word.length < 6) return exact;
  if (isKnown(word)) return undefined;
  const near = [...monthNumbers].filter(
    ([name]) =>
      name.length >= 6 && name[0] === word[0] && slipsBetween(name, word, 2) <= (name.length > 7 ? 2 : 1),
  );
  return near.length === 1 ? near[0]![1] : undefined;
}

function dayThenMonth(tokens: readonly Token[], at: number): DaySaid | undefined {
  const day = dayNumberSaid(tokens, tokens[at]?.bare === 'the' ? at + 1 : at);
  if (!day) return undefined;
  const then = tokens[day.next]?.bare === 'of' ? day.next + 1 : day.next;
  const month = monthAt(tokens, then);
  if (month !== undefined) return withYear(tokens, then + 1, day.value, month);
  // `the tenth of the eleventh`
  const of = day.ordinal && tokens[then - 1]?.bare === 'of' && tokens[then]?.bare === 'the';
  const number = of ? dayNumberSaid(tokens, then + 1) : undefined;
  return number?.ordinal && number.value <= 12
    ? withYear(tokens, number.next, day.value, number.value)
    : undefined;
}

function monthThenDay(tokens: readonly Token[], at: number): DaySaid | undefined {
  const month = monthAt(tokens, at);
  if (month === undefined) return undefined;
  const dot = tokens[at + 1]?.text === '.' ? at + 2 : at + 1;
  const day = dayNumberSaid(tokens, tokens[dot]?.bare === 'the' ? dot + 1 : dot);
  return day && withYear(tokens, day.next, day.value, month);
}

/** `the 19th`, `10th`. */
function dayAlone(tokens: readonly Token[], at: number): DaySaid | undefined {
  const day = dayNumberSaid(tokens, at);
  return day?.ordinal ? { day: day.value, next: day.next } : undefined;
}

/** `3`, `3rd`, `third`, `twenty first`, `twenty-one`. */
function dayNumberSaid(
  tokens: readonly Token[],
  at: number,
): { value: number; next: number; ordinal: boolean } | undefined {
  const token = tokens[at];
  if (token?.kind === 'number') {
    const value = Number(token.text);
    if (!Number.isInteger(value) || value < 1 || value > 31) return undefined;
    const ending = tokens[at + 1];
    const ordinal = ending?.from === token.to && isOne('ordinal end', ending.bare);
    return { value, next: ordinal ? at + 2 : at + 1, ordinal };
  }
  const alone = ordinals.get(token?.bare ?? '');
  if (alone !== undefined) return { value: alone, next: at + 1, ordinal: true };
  const tens = token?.bare === 'twenty' ? 20 : token?.bare === 'thirty' ? 30 : 0;
  const then = tokens[at + 1]?.text === '-' ? at + 2 : at + 1;
  const last = tens === 0 ? undefined : ordinals.get(tokens[then]?.bare ?? '');
  if (last !== undefined && last < 10) return { value: tens + last, next: then + 1, ordinal: true };
  const said = token?.kind === 'word' ? numberSaid(tokens, at) : undefined;
  return said && !said.parts && Number.isInteger(said.value) && said.value >= 1 && said.value <= 31
    ? { value: said.value, next: said.next, ordinal: false }
    : undefined;
}

function withYear(tokens: readonly Token[], at: number, day: number, month: number): DaySaid {
  const comma = tokens[at]?.text === ',' ? at + 1 : at;
  const token = tokens[comma];
  if (token?.kind === 'number' && /^20[1-4]\d$/.test(token.text))
    return { day, month, year: Number(token.text), next: comma + 1 };
  if (token?.bare === 'twenty') {
    const rest = numberSaid(tokens, comma + 1);
    if (rest?.words && rest.value >= 15 && rest.value < 50 && !rest.parts)
      return { day, month, year: 2000 + rest.value, next: rest.next };
  }
  return { day, month, next: at };
}

/** What a day is counted from; `latest`: the last such day not after it, `next`: the first not before it. */
export interface DayBase {
  readonly pick: 'latest' | 'next';
  readonly from: CalendarDay;
  readonly today: CalendarDay;
  readonly order: DateOrder;
}

/** Which figure of a date comes first; `sure`: the business or the note itself has said so, else it is only likelier. */
export interface DateOrder {
  readonly first: NonNullable<Business['dates']>;
  readonly sure: boolean;
}

/** The days a stretch may mean, the likelier first; one where it is certain, none where there is no such day. */
export function daysMeant(said: DaySaid, base: DayBase): CalendarDay[] {
  if (said.iso !== undefined) return existing([said.iso]);
  if (said.relative !== undefined) return [addDays(base.today, said.relative)];
  const { day, month, either, weekday } = said;
  if (either) {
    const other = [either[1], either[0]] as const;
    const all = base.order.first === 'day-first' ? [either, other] : [other, either];
    // One that is sure is only left where it makes no date at all: 13/25.
    const ways = base.order.sure && all[0]![1] <= 12 ? all.slice(0, 1) : all;
    const days = [...new Set(ways.flatMap(([d, m]) => inYear(d, m, said.year, base)))];
    const fit = days.filter((one) => weekday === undefined || weekdayOf(one) === weekday);
    return fit.length > 0 ? fit : days;
  }
  if (day !== undefined && month !== undefined) return inYear(day, month, said.year, base);
  const step = base.pick === 'latest' ? -1 : 1;
  if (day !== undefined) return nearest(base.from, step, 0, (one) => Number(one.slice(8)) === day && (weekday === undefined || weekdayOf(one) === weekday)); // prettier-ignore
  const before = nearest(base.from, step, step, (one) => weekdayOf(one) === weekday);
  // On a Tuesday, “Tuesday” may be today or a week ago.
  return base.pick === 'latest' && weekdayOf(base.from) === weekday ? [base.from, ...before] : before;
}

function nearest(
  from: CalendarDay,
  step: number,
  first: number,
  fits: (day: CalendarDay) => boolean,
): CalendarDay[] {
  for (let n = first; Math.abs(n) < 400; n += step) {
    const one = addDays(from, n);
    if (fits(one)) return [one];
  }
  return [];
}

export function weekdayOf(day: CalendarDay): number {
  return (((dayNumber(day) + 4) % 7) + 7) % 7;
}

function inYear(
  day: number,
  month: number,
  year: number | undefined,
  { pick, from }: DayBase,
): CalendarDay[] {
  const two = (n: number): string => String(n).padStart(2, '0');
  const of = (y: number): string => `${y}-${two(month)}-${two(day)}`;
  if (year !== undefined) return existing([of(year)]);
  const base = Number(from.slice(0, 4));
  // Eight years either way: 29 February comes round at most that late.
  const steps = Array.from({ length: 9 }, (_, n) => base + (pick === 'latest' ? -n : n));
  const found = existing(steps.map(of)).find((one) => (pick === 'latest' ? one <= from : one >= from));
  return found === undefined ? [] : [found];
}

function existing(days: readonly string[]): CalendarDay[] {
  return days.filter((day) => calendarDay.safeParse(day).success);
}

/** A span of time: so many days, or months by the calendar. */
export interface SpanSaid {
  readonly days: number;
  readonly months: number;
  readonly next: number;
}

/** `4 weeks`, `6/52`, `10/7`, `14 d`, `a fortnight`, `two months`, `next week` is none. */
export function spanSaid(tokens: readonly Token[], at: number): SpanSaid | undefined {
  const token = tokens[at];
  if (token === undefined) return undefined;
  const [stroke, of] = [tokens[at + 1], tokens[at + 2]];
  if (
    token.kind === 'number' &&
    stroke?.text === '/' &&
    /^(?:52|7|12)$/.test(of?.text ?? '') &&
    tokens[at + 3]?.text !== '/'
  ) {
    const count = Number(token.text);
    if (of!.text === '52' && count <= 52) return { days: count * 7, months: 0, next: at + 3 };
    return undefined;
  }
  const single = isOne('another', token.bare);
  // `in to weeks`, as it was heard
  const misheard = isOne('two misheard', token.bare) && tokens[at - 1]?.bare === 'in';
  const count = single
    ? { value: 1, next: at + 1 }
    : misheard
      ? { value: 2, next: at + 1 }
      : numberSaid(tokens, at);
  const start = count && !('unit' in count && count.unit !== undefined) ? count.next : at;
  const more = isOne('more', tokens[start]?.bare) ? start + 1 : start;
  const phrase = phraseAt(tokens, more);
  const unit = phrase?.is.get('spans');
  if (unit === undefined || (start === at && unit !== '14')) return undefined;
  // `t19 w58`: the letter belongs to the figure behind it.
  const behind = tokens[phrase!.next];
  if (tokens[more]!.bare.length === 1 && behind?.kind === 'number' && behind.from === tokens[more]!.to)
    return undefined;
  const times = start === at ? 1 : (count?.value ?? 1);
  const days = unit === 'month' ? 0 : times * Number(unit);
  const months = unit === 'month' ? times : 0;
  return Number.isInteger(days) && Number.isInteger(months)
    ? { days, months, next: phrase!.next }
    : undefined;
}

/** The day a span after another; undefined where the calendar of the format does not reach so far. */
export function afterSpan(
  from: CalendarDay,
  { days, months }: Pick<SpanSaid, 'days' | 'months'>,
): CalendarDay | undefined {
  if (days + months * 31 > 3700) return undefined;
  if (months === 0) return addDays(from, days);
  const first = Number(from.slice(0, 4)) * 12 + Number(from.slice(5, 7)) - 1 + months;
  const month = `${Math.floor(first / 12)}-${String((first % 12) + 1).padStart(2, '0')}`;
  for (let day = Number(from.slice(8)); day > 27; day -= 1)
    if (calendarDay.safeParse(`${month}-${day}`).success) return `${month}-${day}`;
  return `${month}-${from.slice(8)}`;
}

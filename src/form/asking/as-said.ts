import { readPractice } from '../../casefile/read-practice.js';
import type { Keeping } from '../../keep/change.js';
import type { Speech } from '../../keep/answer/read-answer.js';
import { afterSpan, type DayBase, daySaid, daysMeant, spanSaid } from '../../note/day-said.js';
import { isKnown, phraseAt } from '../../note/note-words.js';
import { inMm, numberSaid } from '../../note/number-said.js';
import { tokensOf } from '../../note/token.js';
import type { Business } from '../../record/business.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';

/** Which figure of a day comes first by `dates` of business.md; looked up only for a day in figures. */
export type DatesOf = () => Business['dates'];

/** As `business.md` of a cases folder has it. */
export function datesOf({ files, cases, today }: Keeping): DatesOf {
  return () => readPractice(files, cases, { today }).practice.business.dates;
}

/**
 * Answers as people say them: days, trade words and lengths as notes from the yard have them, in the same vocabulary.
 *
 * Checked: tests/form/asking/as-said.test.ts
 */
export function speechOn(today: CalendarDay, dates: DatesOf = () => undefined): Speech {
  return {
    days: (text, from, ahead) => daysSaid(text, today, from, ahead, dates),
    words: wordsSaid,
    number: numberInUnit,
  };
}

function daysSaid(
  text: string,
  today: CalendarDay,
  from: CalendarDay,
  ahead: boolean,
  dates: DatesOf,
): readonly CalendarDay[] {
  const plain = text.trim().toLowerCase().replace(/^(?:on|by|in) /, ''); // prettier-ignore
  // `Friday week` is a week after Friday.
  const [, weekday] = /^([a-z]+day) week$/.exec(plain) ?? [];
  if (weekday !== undefined) return daysSaid(weekday, today, from, true, dates).map((day) => addDays(day, 7));
  const [, which, rest = plain] = /^(last|this|next|coming) (.+)$/.exec(plain) ?? [];
  const tokens = tokensOf(rest.replace(/^(\d{1,2})\.(\d{1,2})\.?$/, '$1/$2'));
  const span = spanSaid(tokens, 0);
  if (span && tokens[span.next]?.bare === 'ago' && tokens.length === span.next + 1)
    return [afterSpan(today, { days: -span.days, months: -span.months }) ?? []].flat();
  if (span?.next === tokens.length) return [afterSpan(from, span) ?? []].flat();
  const said = daySaid(tokens, 0);
  if (said?.next !== tokens.length || said.vague) return [];
  const first = said.either ? dates() : undefined;
  const order = { first: first ?? 'day-first', sure: first !== undefined } as const;
  const on = (pick: DayBase['pick'], day: CalendarDay): CalendarDay[] =>
    daysMeant(said, { pick, from: day, today, order });
  if (which === 'last') return on('latest', addDays(today, -1));
  if (which === undefined) return on(ahead ? 'next' : 'latest', from);
  const [soon] = on('next', from);
  // Of the next Friday some mean this week's, some the week after.
  return soon === undefined ? [] : which === 'next' && said.weekday !== undefined ? [soon, addDays(soon, 7)] : [soon]; // prettier-ignore
}

/** Spelled as the vocabulary has it; a general kind, such as WL, goes before its own kinds, such as WLF. */
function wordsSaid(words: readonly string[], text: string): readonly string[] {
  const tokens = tokensOf(text.toLowerCase());
  const phrase = phraseAt(tokens, 0);
  if (phrase?.next !== tokens.length || tokens.some(({ kind, bare }) => kind === 'word' && !isKnown(bare)))
    return [];
  const meant = [...phrase.is.values()].flatMap(
    (value) =>
    words.includes(value) ? [value] : value.split(' ').every((one) => words.includes(one)) ? value.split(' ') : [], // prettier-ignore
  );
  const general = meant.find((one) => meant.every((other) => other.startsWith(one)));
  return general === undefined ? [...new Set(meant)] : [general];
}

/** `4.3 cm` and `1-3/4"` are mm where mm are wanted; a number of another kind is none. */
function numberInUnit(text: string, unit: string | undefined): number | undefined {
  const tokens = tokensOf(text);
  const said = numberSaid(tokens, 0);
  if (said?.next !== tokens.length) return undefined;
  if (said.unit === undefined) return said.parts ? undefined : said.value;
  if (unit === 'mm' && said.unit !== 'kg' && said.unit !== 'lb') return inMm(said);
  return said.unit === unit ? said.value : undefined;
}

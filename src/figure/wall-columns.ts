import { largest } from '../statistics/estimate.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../reference/words.js';
import { barNotes } from './wall-strip-words.js';
import { leastPitch } from './day-axis.js';
import type { WallBar, WallStripInput } from './drawn-wall.js';
import { cutText, widestWord, wrapText } from './wrap-text.js';

/** Columns that fit across a sheet of paper at natural size. */
const mostColumns = 11;

/**
 * Which visits a strip draws: all while they fit, else the first and the latest ones.
 * Of 14 with nothing expected: the first, the last 9, and 4 left out.
 */
function shownBars({ bars, expected, out, noForecast }: WallStripInput) {
  const columns =
    mostColumns - expected.length - (out ? 1 : 0) - (noForecast && noForecast !== 'healed' ? 1 : 0);
  if (bars.length <= columns) return { first: bars, latest: [], leftOut: 0 };
  const latest = bars.slice(bars.length - (columns - 2));
  return { first: bars.slice(0, 1), latest, leftOut: bars.length - 1 - latest.length };
}

/** A column of the strip. */
export type WallColumn =
  | { readonly what: 'bar'; readonly bar: WallBar; readonly notes: readonly NoteLine[] }
  | { readonly what: 'break'; readonly lines: readonly string[] }
  | { readonly what: 'expected'; readonly at: number }
  | { readonly what: 'out'; readonly day: CalendarDay | null }
  | { readonly what: 'no-date'; readonly lines: readonly string[] };

/** A line over a bar and the mark it is set in. */
export interface NoteLine {
  readonly text: string;
  readonly mark: 'k' | 'w';
}

export interface WallColumns {
  /** Left to right. */
  readonly columns: readonly WallColumn[];
  /** Width of each, px: enough for its longest word, date or count of days. */
  readonly pitch: number;
  readonly leftOut: number;
}

/** A column is as wide as its longest word needs, within these; a longer word (a lesion's name) is cut. */
const usualPitch = 56;
const widestPitch = 72;

/** The visits shown, a break where some are left out, then what is expected or why nothing is. */
export function wallColumns(input: WallStripInput, words: Words): WallColumns {
  const { first, latest, leftOut } = shownBars(input);
  const shown = [...first, ...latest].map((bar) => ({ bar, notes: barNotes(bar, words) }));
  const more = leftOut ? words.say('figure.and-more', { count: leftOut }) : undefined;
  const why = input.noForecast;
  const noDate =
    why && why !== 'healed' && shown.length ? words.say(`figure.wall.no-date.${why}`) : undefined;
  const texts = [
    ...shown.flatMap(({ notes }) => notes.map(({ text }) => text)),
    ...[more, noDate].filter((text) => text !== undefined),
  ];
  const pitch = Math.max(
    usualPitch,
    Math.min(
      widestPitch,
      Math.ceil(
        largest(
          texts.map((text) => widestWord(text, 11, 'bold')),
          0,
        ) + 5,
      ),
    ),
    leastPitch(shownDays(input, [...first, ...latest]), words),
  );
  const wrap = (text: string) =>
    wrapText(text, pitch - 4, 11, 'bold').map((part) => cutText(part, pitch - 4, 11, 'bold'));
  const bars = shown.map(({ bar, notes }): WallColumn => ({
    what: 'bar',
    bar,
    notes: notes.flatMap(({ text, grave }) =>
      wrap(text).map((part): NoteLine => ({ text: part, mark: grave ? 'w' : 'k' })),
    ),
  }));
  return {
    pitch,
    leftOut,
    columns: [
      ...bars.slice(0, first.length),
      ...(more ? [{ what: 'break' as const, lines: wrap(more) }] : []),
      ...bars.slice(first.length),
      ...input.expected.map((_, at) => ({ what: 'expected' as const, at })),
      ...(input.out ? [{ what: 'out' as const, day: outDay(input) }] : []),
      ...(noDate ? [{ what: 'no-date' as const, lines: wrap(noDate) }] : []),
    ],
  };
}

/** At the coronet no likeliest day is printed. */
function outDay({ out, ifSoundHornFollows }: WallStripInput): CalendarDay | null {
  return ifSoundHornFollows ? null : (out?.best ?? null);
}

function shownDays(input: WallStripInput, bars: readonly WallBar[]): CalendarDay[] {
  const last = outDay(input);
  return [
    ...bars.map(({ date }) => date),
    ...input.expected.map(({ date }) => date),
    ...(last === null ? [] : [last]),
  ];
}

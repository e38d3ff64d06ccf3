import { largest } from '../statistics/estimate.js';
import { daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { dayInShort } from '../words/number-in-words.js';
import type { Words } from '../reference/words.js';
import { label, lines } from './svg-mark.js';
import { textWidth } from './wrap-text.js';

/** A day under the middle of a bar. */
export interface DayUnderBar {
  readonly x: number;
  readonly day: CalendarDay;
  /** Printed fainter: a day to come. */
  readonly later: boolean;
}

/** Height of the axis, px. */
export const dayAxisHeight = 48;

/**
 * Dates under bars that stand evenly: the day, the year where it changes, and between two bars the days that lie
 * between, so that even steps do not pass for even time.
 */
export function drawDayAxis(days: readonly DayUnderBar[], y: number, words: Words): string {
  const betweens = days.slice(1).map((after, at) => between(days[at]!, after, y, words));
  const named = days.map(({ x, day, later }, at) => {
    const year = day.slice(0, 4);
    return (
      label(later ? 's' : 't', x, y + 16, dayInShort(words, day)) +
      (days[at - 1]?.day.slice(0, 4) === year ? '' : label('s', x, y + 29, year))
    );
  });
  return (
    named.join('') +
    betweens.map(({ text }) => text).join('') +
    lines(
      'rule',
      betweens.flatMap(({ rules }) => rules),
    )
  );
}

function between(before: DayUnderBar, after: DayUnderBar, y: number, words: Words) {
  const text = words.say('figure.days', { count: daysBetween(before.day, after.day) });
  const middle = (before.x + after.x) / 2;
  const clear = textWidth(text, 11) / 2 + 1;
  const rule = (from: number, to: number) => (to - from < 2 ? [] : [[from, y + 40.5, to, y + 40.5] as const]);
  return {
    text: label('s', middle, y + 44, text),
    rules: [...rule(before.x, middle - clear), ...rule(middle + clear, after.x)],
  };
}

/** Least distance between two bars for which neither the dates nor the days between them meet. */
export function leastPitch(days: readonly CalendarDay[], words: Words): number {
  const widths = days.flatMap((day, at) => [
    textWidth(dayInShort(words, day), 12),
    at === 0 ? 0 : textWidth(words.say('figure.days', { count: daysBetween(days[at - 1]!, day) }), 11),
  ]);
  return Math.ceil(largest(widths, 0) + 5);
}

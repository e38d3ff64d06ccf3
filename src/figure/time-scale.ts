import { addDays, dayNumber, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import type { Words } from '../words/words.js';
import { textWidth } from './text-width.js';

/** From days to pixels along a line, and the months to name on it. */
export interface TimeScale {
  readonly x: (day: CalendarDay) => number;
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
}

/** Months between ticks: the first step whose names do not meet. */
const steps = [1, 2, 3, 6, 12, 24, 60] as const;

/** `left` is the beginning of the first day, `right` the end of the last. */
export function timeScale(
  from: CalendarDay,
  to: CalendarDay,
  left: number,
  right: number,
  words: Words,
): TimeScale {
  const start = dayNumber(from);
  const pxPerDay = (right - left) / Math.max(1, daysBetween(from, addDays(to, 1)));
  const x = (day: CalendarDay) => Math.min(right, Math.max(left, left + (dayNumber(day) - start) * pxPerDay));
  for (const step of steps) {
    const ticks = firstsOfMonths(from, to, step).map((day, at) => ({
      x: x(day),
      text: tickInWords(day, at === 0, words),
    }));
    const clear = ticks.every((tick, at) => {
      const next = ticks[at + 1];
      return (
        next === undefined || next.x - tick.x > (textWidth(tick.text, 11) + textWidth(next.text, 11)) / 2 + 6
      );
    });
    if (clear) return { x, ticks: ticks.filter((tick) => tick.x + textWidth(tick.text, 11) / 2 <= right) };
  }
  return { x, ticks: [] };
}

/** The first tick and each January carry their year. */
function tickInWords(day: CalendarDay, first: boolean, words: Words): string {
  const month = words.say(`calendar.short-month.${day.slice(5, 7)}`);
  return first || day.slice(5, 7) === '01'
    ? words.say('figure.month-year', { month, year: day.slice(0, 4) })
    : month;
}

function firstsOfMonths(from: CalendarDay, to: CalendarDay, step: number): CalendarDay[] {
  const days: CalendarDay[] = [];
  const first = Number(from.slice(0, 4)) * 12;
  const last = Number(to.slice(0, 4)) * 12 + 11;
  for (let month = Math.ceil(first / step) * step; month <= last; month += step) {
    const day = `${String(Math.floor(month / 12)).padStart(4, '0')}-${String((month % 12) + 1).padStart(2, '0')}-01`;
    if (day >= from && day <= to) days.push(day);
  }
  return days;
}

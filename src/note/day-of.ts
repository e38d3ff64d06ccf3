import { type CalendarDay, addDays } from '../record/calendar-day.js';
import { daySaid } from './day-said.js';
import { phraseAt } from './phrase.js';
import { spanSaid } from './number-said.js';
import type { VisitReader } from './visit-reader.js';

/** A day read; `day` undefined where it had to be asked which. */
export interface DayOfNote {
  readonly day: CalendarDay | undefined;
  readonly next: number;
}

/** A day something happened on, at the latest on the day of the visit: `3 March`, `yesterday`, `2 weeks ago`. */
export function pastDay(r: VisitReader, at: number): DayOfNote | undefined {
  const span = spanSaid(r.note.tokens, at);
  if (span) {
    const ago = phraseAt(r.note.tokens, span.next, 'ago');
    if (ago) return { day: addDays(r.date, -span.days), next: ago.next };
  }
  return day(r, at, 'latest');
}

/** A day something is to be done by, from the day of the visit on: `17 Feb`, `in 2 weeks`, `4 weeks`. */
export function comingDay(r: VisitReader, at: number): DayOfNote | undefined {
  const span = spanSaid(r.note.tokens, at);
  return span ? { day: addDays(r.date, span.days), next: span.next } : day(r, at, 'next');
}

function day(r: VisitReader, at: number, pick: 'latest' | 'next'): DayOfNote | undefined {
  const today = r.date === r.context.today ? r.date : undefined;
  const said = daySaid(r.note.tokens, at, { pick, from: r.date, today });
  if (!said) return undefined;
  const [only, other] = said.days;
  if (only !== undefined && other === undefined) return { day: only, next: said.next };
  askDay(r, at, said.next, said.days);
  return { day: undefined, next: said.next };
}

function askDay(r: VisitReader, at: number, next: number, days: readonly CalendarDay[]): void {
  r.ask(at, next, {
    id: days.length > 1 ? 'day-either' : 'no-such-day',
    ask: days.length > 1 ? `which day is it, ${days.join(' or ')}?` : 'which day is it?',
    mend: 'write the month in letters, as in 3 March 2026',
    choices: days.map((one) => ({ label: one, text: one })),
  });
}
